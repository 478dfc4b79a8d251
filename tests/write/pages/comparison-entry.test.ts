import { describe, expect, test } from 'vitest';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import { comparisonEntry } from '../../../src/write/pages/comparison-entry.ts';
import { entriesPage } from '../../../src/write/pages/entries-page.tsx';
import { makeLog } from '../../helpers/make-log.ts';
import { onePage } from '../../helpers/one-page.ts';
import { visibleText } from '../../helpers/page-checks.ts';

/** Eight days; braid and mono on the same days, or braid on the first four only. */
async function page(sameDays: boolean): Promise<string> {
  const trips = Array.from({ length: 8 }, (_, at) => ({
    trip_id: `T${at}`,
    date: `2026-03-0${at + 1}`,
  }));
  const bites = trips.flatMap(({ trip_id }, at) =>
    ['braid', 'mono']
      .filter((line) => sameDays || (line === 'braid') === at < 4)
      .flatMap((line_type) => [
        { trip_id, line_type, outcome: 'released' as const, count: line_type === 'braid' ? 4 : 3 },
        { trip_id, line_type, outcome: 'missed' as const, count: 1 + (at % 3) },
      ]),
  );
  const [file] = await onePage(
    'gear.html',
    async (context) =>
      entriesPage([
        await comparisonEntry(context, { id: 'line', factor: 'line_type', question: 'Braid?' }),
      ]),
    tidySeason(makeLog({ trips, bites })),
  );
  return visibleText(file?.text ?? '');
}

describe('a same-day difference beside two shares', () => {
  const WHY = 'Same day: the difference is taken within each trip that fished both';

  test('says why it need not be the gap between them', async () => {
    expect(await page(true)).toContain(WHY);
  });

  test('is not spoken of where no day had both', async () => {
    expect(await page(false)).not.toContain(WHY);
  });
});
