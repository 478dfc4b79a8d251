import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exposedGroups, hiddenGroups } from '../../src/share/audit-subtraction.ts';
import { mergeCells } from '../../src/share/merge-cells.ts';
import { protectTotals } from '../../src/share/protect-totals.ts';
import type { ShareTrip } from '../../src/share/share-trip.ts';
import { mayPublish } from '../../src/share/thresholds.ts';
import { reachableGroups } from './reachable-groups.ts';
import { shareTrip } from './share-trips.ts';

const mayShow = (trips: readonly ShareTrip[]) => mayPublish(trips, { minVessels: 2, minTrips: 3 });
const options = { period: 'month', mayPublish: mayShow } as const;

function tables(trips: readonly ShareTrip[]) {
  const merged = mergeCells(trips, { gridDeg: 5, ...options });
  return { merged, protectedTotals: protectTotals(trips, merged, options) };
}

const place = (lat: number, month: string, vessel: string, n: number, effort = 5) =>
  shareTrip({ trip_id: `T${n}`, lat, lon: 52, month, vessel, effort });

describe('totals beside rows', () => {
  const big = Array.from({ length: 12 }, (_, n) => place(-12, '2025-01', 'abc'[n % 3] ?? '', n));
  const lone = place(-17, '2025-01', 'a', 12);

  test('a total that would give the one trip left out is withheld, and so is the whole', () => {
    const { protectedTotals } = tables([...big, lone]);
    expect(protectedTotals.rows).toHaveLength(1);
    expect(protectedTotals.totals).toEqual([]);
    expect(protectedTotals.withheld).toBe(2);
  });

  test('with nothing left out every total stands', () => {
    const { protectedTotals } = tables(big);
    expect(protectedTotals.totals.map(({ trips }) => trips.length)).toEqual([12, 12]);
    expect(protectedTotals.rests).toEqual([]);
  });

  test('a small row is given up for the total where that costs less than the total', () => {
    // Two long trips left out, a row of three short ones beside them.
    const long = [place(-17, '2025-01', 'a', 20, 40), place(-17, '2025-01', 'a', 21, 40)];
    const short = ['a', 'b', 'c'].map((vessel, n) => place(-22, '2025-01', vessel, 30 + n, 1));
    const { protectedTotals } = tables([...big, ...long, ...short]);
    expect(protectedTotals.givenUp.map(({ trips }) => trips)).toEqual([short]);
    expect(protectedTotals.totals).toHaveLength(2);
    expect(protectedTotals.rests.map((rest) => rest.length)).toEqual([5]);
  });

  test('two small rests in two months hide in the whole together', () => {
    const february = [
      ...Array.from({ length: 6 }, (_, n) => place(-12, '2025-02', 'abc'[n % 3] ?? '', 40 + n)),
      place(-17, '2025-02', 'b', 50),
      place(-17, '2025-02', 'b', 51),
    ];
    const { protectedTotals } = tables([...big, lone, ...february]);
    expect(protectedTotals.totals.map(({ period }) => period)).toEqual([null]);
    expect(protectedTotals.rests.map((rest) => rest.length)).toEqual([3]);
  });

  const someTrips = fc.array(
    fc.record({
      lat: fc.constantFrom(-12, -17, -22),
      month: fc.constantFrom('2025-01', '2025-02'),
      vessel: fc.constantFrom('a', 'b', 'c'),
      effort: fc.integer({ min: 1, max: 9 }),
    }),
    { minLength: 1, maxLength: 24 },
  );

  test('law: no adding and subtracting of rows and totals reaches a group too small to be shown', () => {
    fc.assert(
      fc.property(someTrips, (parts) => {
        const trips = parts.map((part, n) => shareTrip({ trip_id: `T${n}`, lon: 52, ...part }));
        const { merged, protectedTotals } = tables(trips);
        const { rows, totals } = protectedTotals;
        const number = new Map(trips.map((trip, n) => [trip, n]));
        const groups = [...rows, ...totals].map((g) =>
          g.trips.map((trip) => number.get(trip) ?? -1),
        );
        for (const reached of reachableGroups(groups)) {
          expect(mayShow(reached.flatMap((n) => trips[n] ?? []))).toBe(true);
        }
        const hidden = hiddenGroups(merged.suppressed, protectedTotals, {
          outside: merged.unplaced,
          period: 'month',
        });
        expect(exposedGroups(hidden, protectedTotals, mayShow)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test('the audit sees what secondary suppression would have to mend', () => {
    const { merged, protectedTotals } = tables([...big, lone]);
    const careless = {
      ...protectedTotals,
      totals: [{ period: { year: 2025, month: 1, months: 1 as const }, trips: [...big, lone] }],
    };
    const hidden = hiddenGroups(merged.suppressed, careless, { outside: [], period: 'month' });
    expect(exposedGroups(hidden, careless, mayShow).map(({ trips }) => trips)).toEqual([[lone]]);
  });
});
