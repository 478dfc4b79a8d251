import { describe, expect, test } from 'vitest';
import type { Estimate } from '../../src/base/estimate.ts';
import { baitPrice, baitSurvival } from '../../src/estimate/bait-price.ts';
import { baitTrips, cutsBaitUse } from '../../src/estimate/bait-trips.ts';
import { baitYields } from '../../src/estimate/bait-yield.ts';
import type { BaitBuyRow } from '../../src/read/rows.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, makeLog } from '../helpers/make-log.ts';

// Three trips with soaks and one without. Mullet out on T1 (3 baits) and T2 (2 baits), scad on T1 and
// T3; two hours a soak. Worked out by hand.
const ALL = { only: {}, from: null, to: null, level: 0.95, seed: 1 };
const soak = (trip_id: string, bait: string | null, baits_used: number) => ({
  trip_id,
  bait,
  baits_used,
  position: bait === 'scad' ? 'port-short' : 'port-long',
  time_in: clock('8:00'),
  time_out: clock('10:00'),
});
const buy = (date: string, bait: string, rest: Partial<BaitBuyRow>): BaitBuyRow => ({
  line: 2,
  date,
  bait,
  count: 10,
  unit_cost: 2,
  died: 0,
  ran_out: false,
  trip_id: null,
  source: null,
  notes: null,
  ...rest,
});
const caught = (trip_id: string, bait: string, rest: object = {}) => ({
  trip_id,
  bait,
  position: bait === 'scad' ? 'port-short' : 'port-long',
  time: clock('9:00'),
  outcome: 'released' as const,
  ...rest,
});
const log = makeLog({
  trips: [
    { trip_id: 'T1', date: '2026-01-03' },
    { trip_id: 'T2', date: '2026-01-05' },
    { trip_id: 'T3', date: '2026-02-09' },
    { trip_id: 'T4', date: '2026-02-11' },
  ],
  soaks: [
    soak('T1', 'mullet', 3),
    soak('T1', 'scad', 1),
    soak('T2', 'mullet', 2),
    soak('T3', 'scad', 4),
  ],
  bites: [
    caught('T1', 'mullet'),
    caught('T1', 'mullet', { outcome: 'missed' }),
    caught('T2', 'mullet', { outcome: 'lost' }),
    caught('T3', 'scad'),
  ],
  baitBuys: [
    buy('2026-01-03', 'mullet', { trip_id: 'T1', died: 2, ran_out: true }),
    buy('2026-01-04', 'mullet', { unit_cost: 3, died: 1 }),
    buy('2026-02-09', 'scad', { count: 30, unit_cost: 1, died: 3 }),
    buy('2026-03-20', 'mullet', { unit_cost: null, died: null }),
  ],
});
const season = tidySeason(log);

function value(figure: Estimate | undefined): number {
  if (figure?.kind !== 'estimated') throw new Error('not estimated');
  return figure.estimate;
}

describe('use of bait', () => {
  const [mullet, scad] = baitTrips(season, ALL);

  test('runs over every trip that has soaks, zeros included; a trip without soaks is left out', () => {
    expect(mullet?.trips.map(({ trip }) => trip.trip_id)).toEqual(['T1', 'T2', 'T3']);
    expect(mullet?.trips.map(({ deployed }) => deployed)).toEqual([3, 2, 0]);
    expect(scad?.trips.map(({ used }) => used)).toEqual([1, 0, 7]);
  });

  test('dead baits count as used; bought the day before counts for the next trip', () => {
    expect(mullet?.trips.map(({ died }) => died)).toEqual([2, 1, 0]);
    expect(mullet?.trips.map(({ used }) => used)).toEqual([5, 3, 0]);
    expect(mullet?.trips.map(({ ranOut }) => ranOut)).toEqual([true, false, false]);
  });

  test('a purchase without a trip near has a price and no trip', () => {
    expect(mullet?.purchases).toHaveLength(3);
    expect(mullet?.trips.map(({ bought }) => bought)).toEqual([10, 10, 0]);
    expect(baitPrice(mullet as never)).toEqual({ mean: 2.5, priced: 20, bought: 30 });
    expect(baitSurvival(mullet as never)).toBeCloseTo(1 - 3 / 20, 12);
    expect(baitPrice({ purchases: [] })).toBeNull();
    expect(baitSurvival({ purchases: [] })).toBeNull();
  });

  test('dates and whole-trip factors cut it, what differs between lines does not', () => {
    const january = baitTrips(season, { ...ALL, only: { month: ['2026-01'] } });
    expect(january.map(({ bait }) => bait)).toEqual(['mullet', 'scad']);
    expect(january[0]?.trips).toHaveLength(2);
    expect(baitTrips(season, { ...ALL, from: '2026-02-01' })[0]?.bait).toBe('scad');
    expect(cutsBaitUse({ month: ['2026-01'], reach: ['long'] })).toEqual(['reach']);
    expect(cutsBaitUse({ bait: ['scad'] })).toEqual([]);
  });
});

describe('what bait brings', () => {
  const [mullet, scad] = baitYields(season, baitTrips(season, ALL), ALL);

  test('by the bait used, by the hour, by the money', () => {
    expect(value(mullet?.perBait.bites)).toBeCloseTo(3 / 8, 12);
    expect(value(mullet?.perBait.hooked)).toBeCloseTo(2 / 8, 12);
    expect(value(mullet?.perBait.caught)).toBeCloseTo(1 / 8, 12);
    expect(value(mullet?.perHour.bites?.rate)).toBeCloseTo(3 / 4, 12);
    expect(value(mullet?.perMoney?.caught)).toBeCloseTo(1 / 8 / 2.5, 12);
    expect(value(mullet?.costPerFish?.used)).toBeCloseTo(2.5 * 8, 12);
    expect(value(mullet?.costPerFish?.bought)).toBeCloseTo(2.5 * 20, 12);
    expect(value(scad?.costPerFish?.used)).toBeCloseTo(8, 12);
  });

  test('the limits of a cost per fish are those of fish per bait turned round', () => {
    const [perBait, cost] = [mullet?.perBait.caught, mullet?.costPerFish?.used];
    if (perBait?.kind !== 'estimated' || cost?.kind !== 'estimated') throw new Error('no figure');
    expect(cost.lower).toBeCloseTo(2.5 / perBait.upper, 12);
    expect(cost.upper).toBeCloseTo(2.5 / perBait.lower, 12);
  });

  test('nothing caught, nothing paid, fewer bought than used: said so, never 0', () => {
    const none = tidySeason({ ...log, bites: [] });
    const [bare] = baitYields(none, baitTrips(none, ALL), ALL);
    expect(bare?.costPerFish?.used).toMatchObject({ reason: expect.stringContaining('No fish') });
    const free = tidySeason({
      ...log,
      baitBuys: [buy('2026-01-03', 'mullet', { count: 4, unit_cost: 0 })],
    });
    const [gift, unpriced] = baitYields(free, baitTrips(free, ALL), ALL);
    expect(gift?.perMoney?.caught).toMatchObject({
      reason: expect.stringContaining('cost nothing'),
    });
    expect(gift?.costPerFish?.bought).toMatchObject({ reason: expect.stringContaining('Fewer') });
    expect(unpriced?.costPerFish).toBeNull();
  });
});
