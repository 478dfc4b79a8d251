import { expect, test } from 'vitest';
import { estimated } from '../../../src/base/estimate.ts';
import type { IndexRow } from '../../../src/estimate/standardised-index.ts';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import { entriesPage } from '../../../src/write/pages/entries-page.tsx';
import { loadAdjustedEntry } from '../../../src/write/pages/load-adjusted-entry.ts';
import { makeLog } from '../../helpers/make-log.ts';
import { onePage } from '../../helpers/one-page.ts';
import { answerOf, visibleText } from '../../helpers/page-checks.ts';

/** A bait with its index against the mean bait. */
function row(level: string, [estimate, lower, upper]: readonly [number, number, number]): IndexRow {
  const basis = { level: 0.95, method: 'test', n: 40, exposure: 100, notes: [] };
  const standardised = estimated({ ...basis, estimate, lower, upper });
  return { level, standardised, raw: estimate, rawPerLineHour: 0.5, trips: 40, lineHours: 100 };
}

test('a bait said to catch more, or less, has limits that do not read as the mean bait', async () => {
  const rows = [row('scad', [1.13, 1.02, 1.24]), row('mullet', [0.91, 0.83, 0.996])];
  const files = await onePage(
    'bait.html',
    async (context) => {
      const stock = context.stock();
      const index = { ...stock.adjusted.caught, rows, refused: null, notes: [] };
      const adjusted = { bites: index, hooked: index, caught: index };
      return entriesPage([
        await loadAdjustedEntry({ ...context, stock: () => ({ ...stock, adjusted }) }),
      ]);
    },
    tidySeason(makeLog({ trips: [] })),
  );
  expect(answerOf(files, 'bait.html', 'bait-adjusted')).toBe(
    'With reach and month held equal, scad catches more than the mean bait and mullet catches less.',
  );
  const text = visibleText(files[0]?.text ?? '');
  expect(text).toContain('1.13 (1.02–1.24)');
  expect(text).toContain('0.910 (0.830–0.996)');
});
