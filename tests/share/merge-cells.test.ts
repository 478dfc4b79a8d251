import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cellAt, type GridSize } from '../../src/share/cwp-grid.ts';
import { mergeCells } from '../../src/share/merge-cells.ts';
import { periodOf, periodText } from '../../src/share/period.ts';
import type { ShareTrip } from '../../src/share/share-trip.ts';
import { mayPublish } from '../../src/share/thresholds.ts';
import { shareTrip } from './share-trips.ts';

const thresholds = { minVessels: 2, minTrips: 3 };
const mayShow = (trips: readonly ShareTrip[]) => mayPublish(trips, thresholds);
const merge = (trips: readonly ShareTrip[], gridDeg: GridSize = 1) =>
  mergeCells(trips, { gridDeg, period: 'month', mayPublish: mayShow });

let made = 0;
const at = (lat: number, lon: number, vessel: string, month = '2025-03') =>
  shareTrip({ trip_id: `T${made++}`, lat, lon, vessel, month });
const three = (lat: number, lon: number, month?: string) =>
  ['a', 'b', 'c'].map((vessel) => at(lat, lon, vessel, month));

describe('merging, then suppressing', () => {
  test('cells that may all be shown stand as they are', () => {
    const { released, mergedRows, suppressed } = merge([
      ...three(-12.3, 54.5),
      ...three(-13.3, 54.5),
    ]);
    expect(released.map(({ cell }) => [cell.sizeDeg, cell.cornerLat])).toEqual([
      [1, 12],
      [1, 13],
    ]);
    expect([mergedRows, suppressed]).toEqual([[], []]);
  });

  test('one cell too small takes the whole larger cell of that month with it, and no other month', () => {
    const small = at(-13.3, 54.5, 'a');
    const { released, mergedRows } = merge([
      ...three(-12.3, 54.5),
      small,
      ...three(-12.3, 54.5, '2025-04'),
    ]);
    expect(released.map(({ cell, trips }) => [cell.sizeDeg, trips.length])).toEqual([
      [5, 4],
      [1, 3],
    ]);
    expect(mergedRows).toHaveLength(1);
  });

  test('half degrees merge to one degree before five', () => {
    const { released } = merge(
      [...three(-12.2, 54.2), at(-12.7, 54.7, 'a'), ...three(-14.2, 54.2)],
      0.5,
    );
    expect(released.map(({ cell }) => cell.sizeDeg)).toEqual([1, 0.5]);
  });

  test('what is too small even as five degrees is left out, and trips without a place are told apart', () => {
    const lone = [at(-12.3, 56.5, 'a'), at(-12.3, 56.5, 'a'), at(-12.3, 56.5, 'a')];
    const lost = shareTrip({ trip_id: 'no place', lat: null, lon: null });
    const { released, suppressed, unplaced } = merge([...three(-12.3, 54.5), ...lone, lost]);
    expect(released).toHaveLength(1);
    expect(suppressed.map(({ trips }) => trips)).toEqual([lone]);
    expect(unplaced).toEqual([lost]);
  });

  test('nothing is merged from nothing', () => {
    expect(merge([])).toEqual({ released: [], suppressed: [], mergedRows: [], unplaced: [] });
  });

  const trips = fc.array(
    fc.record({
      lat: fc.integer({ min: -180, max: -100 }).map((tenths) => tenths / 10),
      lon: fc.integer({ min: 500, max: 610 }).map((tenths) => tenths / 10),
      vessel: fc.constantFrom('a', 'b', 'c'),
      month: fc.constantFrom('2025-01', '2025-02'),
    }),
    { maxLength: 40 },
  );

  test('law: every trip stands once, rows meet the thresholds, lie in their cells and never overlap', () => {
    fc.assert(
      fc.property(trips, fc.constantFrom(0.5, 1, 5), (parts, gridDeg) => {
        const all = parts.map((part, n) => shareTrip({ trip_id: `T${n}`, ...part }));
        const { released, suppressed } = merge(all, gridDeg as GridSize);
        const placed = [...released, ...suppressed].flatMap((row) => row.trips);
        expect(new Set(placed)).toEqual(new Set(all));
        expect(placed).toHaveLength(all.length);
        for (const row of released) expect(mayShow(row.trips)).toBe(true);
        for (const row of suppressed) expect(mayShow(row.trips)).toBe(false);
        for (const { cell, trips: own, period } of released) {
          for (const trip of own) {
            expect(cellAt(trip.lat ?? 0, trip.lon ?? 0, cell.sizeDeg)).toEqual(cell);
            expect(periodText(periodOf(trip.month, 'month'))).toBe(periodText(period));
          }
          // No row of the same period lies inside a larger one.
          const others = released.filter((r) => r.cell !== cell && r.period.month === period.month);
          for (const other of others) {
            const { cornerLat, cornerLon, sizeDeg } = other.cell;
            const apart =
              cornerLat + sizeDeg <= cell.cornerLat ||
              cornerLat >= cell.cornerLat + cell.sizeDeg ||
              cornerLon + sizeDeg <= cell.cornerLon ||
              cornerLon >= cell.cornerLon + cell.sizeDeg;
            expect(apart).toBe(true);
          }
        }
      }),
    );
  });
});
