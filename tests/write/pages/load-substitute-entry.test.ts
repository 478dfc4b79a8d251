import { describe, expect, test } from 'vitest';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import { loadSubstituteEntry } from '../../../src/write/pages/load-substitute-entry.ts';
import { reportContext } from '../../../src/write/pages/report-context.ts';
import { clock, makeLog } from '../../helpers/make-log.ts';

/**
 * Twelve trips; two hours of mullet, then two of scad, on the same long line. Fish caught on each
 * from trip to trip as given.
 */
function asides(mullet: readonly number[], scad: readonly number[]): readonly string[] {
  const trips = Array.from({ length: 12 }, (_, at) => ({
    trip_id: `T${at}`,
    date: new Date(Date.UTC(2026, 0, 1 + at)).toISOString().slice(0, 10),
  }));
  const parts = trips.flatMap(({ trip_id }, at) =>
    [
      { bait: 'mullet', from: clock('6:00'), count: mullet[at % mullet.length] ?? 0 },
      { bait: 'scad', from: clock('8:01'), count: scad[at % scad.length] ?? 0 },
    ].map((part) => ({ trip_id, position: 'port-long', ...part })),
  );
  const season = tidySeason(
    makeLog({
      trips,
      soaks: parts.map(({ from, count: _, ...soak }) => ({
        ...soak,
        time_in: from,
        time_out: from + 119,
      })),
      bites: parts
        .filter(({ count }) => count > 0)
        .map(({ from, ...bite }) => ({ ...bite, time: from + 60, outcome: 'released' as const })),
    }),
  );
  const filter = { only: {}, from: null, to: null };
  return (
    loadSubstituteEntry(reportContext(season, { filter, level: 0.95, seed: 1 })).entry.asides ?? []
  );
}

describe('chances of being the best', () => {
  const WHY =
    'On the long lines the log shows no more difference between the baits than luck makes, so there ' +
    'every one has the same chance of being the best.';

  test('where luck alone parts the baits, why the chances are the same stands beside them', () => {
    expect(asides([1, 2, 3], [2, 3, 2])).toContain(WHY);
  });

  test('where the log can tell, it is not said', () => {
    expect(asides([0, 1, 2], [5, 6, 7]).join(' ')).not.toContain('than luck makes');
  });
});
