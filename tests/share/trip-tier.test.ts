import { describe, expect, test } from 'vitest';
import type { ShareTrip } from '../../src/share/share-trip.ts';
import { tripClasses, windGroup } from '../../src/share/trip-classes.ts';
import { tripTier } from '../../src/share/trip-tier.ts';
import { shareTrip } from './share-trips.ts';

const asked = { time: 'month', gridDeg: 1, withWind: true } as const;
const rules = { k: 4, l: 2, thresholds: { minVessels: 1, minTrips: 3 } };

const trips = (count: number, parts: Partial<ShareTrip> = {}, first = 0): ShareTrip[] =>
  Array.from({ length: count }, (_, n) => ({
    ...shareTrip({ trip_id: `T${first + n}`, catches: { SFA: [0, n, 0] } }),
    ...parts,
  }));

describe('trips one by one', () => {
  test('a class of k and more, of different catches, leaves as asked', () => {
    const tier = tripTier(trips(8), asked, rules);
    expect(tier).toMatchObject({ detail: asked, leftOut: [] });
    expect(tier?.classes.map((one) => one.trips.length)).toEqual([8]);
  });

  test('too few alike in wind: the wind is not told', () => {
    const tier = tripTier([...trips(6), ...trips(2, { windForce: 7 }, 6)], asked, rules);
    expect(tier?.detail).toEqual({ ...asked, withWind: false });
  });

  test('too few in a month: the quarter is told', () => {
    const tier = tripTier([...trips(3), ...trips(3, { month: '2025-01' }, 3)], asked, rules);
    expect(tier?.detail.time).toBe('quarter');
  });

  test('a trip in thirty by itself is left out rather than all told more coarsely', () => {
    const odd = trips(1, { month: '2024-11' }, 30);
    const tier = tripTier([...trips(30), ...odd], asked, rules);
    expect(tier).toMatchObject({ detail: asked, leftOut: odd });
  });

  test('all of one catch: knowing the class would be knowing the catch', () => {
    const alike = Array.from({ length: 9 }, (_, n) => shareTrip({ trip_id: `T${n}` }));
    expect(tripClasses(alike, asked)[0]?.diversity).toBe(1);
    expect(tripTier(alike, asked, rules)).toBeNull();
  });

  test('below k nothing leaves', () => {
    expect(tripTier(trips(3), asked, rules)).toBeNull();
    expect(tripTier([], asked, rules)).toBeNull();
    const boats = { ...rules, thresholds: { minVessels: 3, minTrips: 3 } };
    expect(tripTier(trips(40), asked, boats)).toBeNull();
  });

  test('wind in three groups', () => {
    expect([null, 0, 3, 4, 5, 6, 12].map(windGroup)).toEqual([
      ...[null, 'F0-3', 'F0-3', 'F4-5', 'F4-5', 'F6-12', 'F6-12'],
    ]);
  });
});
