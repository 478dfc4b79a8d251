import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groupBy } from '../../src/base/group-by.ts';
import { drawSchedule, type PlannedTrip } from '../../src/decide/plan-schedule.ts';
import type { PlanPlace } from '../../src/estimate/plan-places.ts';
import { REACHES } from '../../src/settings/settings.ts';

const SEED = { seed: 5, numRuns: 60 };
const levels = ['braid', 'mono'] as const;

const places = fc.integer({ min: 1, max: 4 }).chain((count) =>
  fc.constant(
    REACHES.slice(0, count).map(
      (reach): PlanPlace => ({
        reach,
        port: [`port-${reach}`],
        starboard: [`starboard-${reach}`],
      }),
    ),
  ),
);
const sides = fc.record({
  design: fc.constant('sides' as const),
  levels: fc.constant(levels),
  trips: fc.integer({ min: 1, max: 60 }).map((half) => 2 * half),
  places,
  seed: fc.integer({ min: 0, max: 0xffffffff }),
});
const days = sides.map((request) => ({ ...request, design: 'days' as const, places: [] }));

const blocksOf = (schedule: readonly PlannedTrip[]) => [
  ...groupBy(schedule, (trip) => trip.block).values(),
];
const isAToPort = (trip: PlannedTrip, reach: string) =>
  trip.lines.find((line) => line.side === 'port' && line.reach === reach)?.level === 'braid';

describe('sides that change', () => {
  test('every trip compares both levels at every place', () => {
    fc.assert(
      fc.property(sides, (request) => {
        for (const { lines } of drawSchedule(request)) {
          for (const { reach } of request.places) {
            const here = lines.filter((line) => line.reach === reach).map((line) => line.level);
            expect(here.sort()).toEqual(['braid', 'mono']);
          }
        }
      }),
      SEED,
    );
  });

  test('blocks have 4 trips, the last 4 or 2, and in each A is to port on half of them', () => {
    fc.assert(
      fc.property(sides, (request) => {
        const schedule = drawSchedule(request);
        expect(schedule.map((trip) => trip.tripNumber)).toEqual(
          Array.from({ length: request.trips }, (_, at) => at + 1),
        );
        const blocks = blocksOf(schedule);
        expect(blocks.slice(0, -1).every((block) => block.length === 4)).toBe(true);
        expect([2, 4]).toContain(blocks.at(-1)?.length);
        for (const block of blocks) {
          for (const { reach } of request.places) {
            const port = block.filter((trip) => isAToPort(trip, reach ?? ''));
            expect(port).toHaveLength(block.length / 2);
          }
        }
      }),
      SEED,
    );
  });

  test('on each trip A is to port at half the places, give or take the odd one', () => {
    fc.assert(
      fc.property(sides, (request) => {
        for (const trip of drawSchedule(request)) {
          const port = request.places.filter(({ reach }) => isAToPort(trip, reach ?? '')).length;
          expect(Math.abs(2 * port - request.places.length)).toBeLessThanOrEqual(1);
        }
      }),
      SEED,
    );
  });

  test('over many seeds a place has A to port as often as not on its first trip', () => {
    const request = { design: 'sides' as const, levels, trips: 2 };
    const lines = REACHES.slice(0, 3).map((reach) => ({ reach, port: ['p'], starboard: ['s'] }));
    const runs = 4000;
    const counts = [0, 0, 0];
    for (let seed = 0; seed < runs; seed++) {
      const [first] = drawSchedule({ ...request, places: lines, seed });
      REACHES.slice(0, 3).forEach((reach, at) => {
        if (first !== undefined && isAToPort(first, reach)) counts[at] = (counts[at] ?? 0) + 1;
      });
    }
    // Four Monte-Carlo standard errors; seeds 0 to 3999.
    const allowed = 4 * Math.sqrt(runs / 4);
    for (const count of counts) expect(Math.abs(count - runs / 2)).toBeLessThan(allowed);
  });
});

test('whole trips: one of each pair fishes A and the other B', () => {
  fc.assert(
    fc.property(days, (request) => {
      for (const block of blocksOf(drawSchedule(request))) {
        const fished = block.flatMap((trip) => trip.lines.map((line) => line.level));
        expect(fished.sort()).toEqual(['braid', 'mono']);
      }
    }),
    SEED,
  );
});

test('the same seed draws the same schedule, another seed another', () => {
  fc.assert(
    fc.property(sides, fc.integer({ min: 1, max: 1000 }), (request, step) => {
      const long = { ...request, trips: 80 };
      const other = { ...long, seed: (long.seed + step) % 2 ** 32 };
      expect(drawSchedule(long)).toEqual(drawSchedule(long));
      expect(drawSchedule(other)).not.toEqual(drawSchedule(long));
    }),
    SEED,
  );
});

test('an odd number of trips is a mistake of the caller', () => {
  const request = { design: 'days' as const, levels, places: [], seed: 1 };
  expect(() => drawSchedule({ ...request, trips: 7 })).toThrow('not 7');
  expect(() => drawSchedule({ ...request, trips: 0 })).toThrow('not 0');
});
