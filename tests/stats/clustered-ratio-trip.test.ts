import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TripRate } from '../../src/stats/clustered-rate.ts';
import { ratioLogT, ratioTrip } from '../../src/stats/clustered-ratio-trip.ts';
import { gammaTails } from '../../src/stats/distributions.ts';
import { garwood } from '../../src/stats/interval-rate.ts';
import { Random } from '../../src/stats/random.ts';

const level = 0.95;

const tripsOf = (events: number[], exposures: number[]) =>
  events.map((count, i) => ({ events: count, exposure: exposures[i] ?? 0 }));

function made(trips: readonly TripRate[], options = { level }) {
  const got = ratioTrip(trips, options);
  if (got.kind === 'not-estimable') throw new Error(got.reason);
  return got;
}

/** Any season: up to thirty trips, from no event to a thousand million, in hours tiny to huge. */
const seasons = fc.array(
  fc.record({
    events: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 1e9 })),
    exposure: fc.oneof(
      fc.constant(0),
      fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 10),
      fc.double({ min: 1e-12, max: 1e12, noNaN: true }),
    ),
  }),
  { minLength: 1, maxLength: 30 },
);

const eight = tripsOf([2, 0, 3, 1, 0, 5, 2, 4], [6.5, 4, 8, 5.5, 3, 9, 6, 7.25]);
const bigDay = tripsOf([0, 1, 14, 0, 2, 0, 6, 1], [22.5, 31, 40.25, 18, 36, 12.75, 41, 30]);

describe('laws of ratio-trip', () => {
  test('any season gives limits that hold the rate, or a reason', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const got = ratioTrip(trips, { level });
        if (got.kind === 'not-estimable') return got.reason.length > 10;
        const { lower, upper, estimate } = got;
        return lower >= 0 && lower <= estimate && estimate <= upper && Number.isFinite(upper);
      }),
      { seed: 1 },
    );
  });

  test('the order of trips never matters', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const one = ratioTrip(trips, { level });
        const other = ratioTrip([...trips].reverse(), { level });
        if (one.kind === 'not-estimable' || other.kind === 'not-estimable')
          return one.kind === other.kind;
        return Math.abs(one.upper - other.upper) <= 1e-9 * one.upper;
      }),
      { seed: 2 },
    );
  });

  test('hours × k give limits / k', () => {
    for (const trips of [eight, bigDay]) {
      const longer = trips.map((trip) => ({ ...trip, exposure: trip.exposure * 60 }));
      const [perHour, perMinute] = [made(trips), made(longer)];
      expect(perMinute.lower * 60).toBeCloseTo(perHour.lower, 12);
      expect(perMinute.upper * 60).toBeCloseTo(perHour.upper, 12);
      expect(perMinute.designEffect).toBeCloseTo(perHour.designEffect ?? 0, 12);
    }
  });

  test('99 % holds 95 % holds 90 %, and it is never narrower than the one that ignores trips', () => {
    for (const trips of [eight, bigDay]) {
      const [wide, middle, narrow] = [0.99, 0.95, 0.9].map((l) => made(trips, { level: l }));
      expect(wide?.lower).toBeLessThan(middle?.lower ?? 0);
      expect(middle?.lower).toBeLessThan(narrow?.lower ?? 0);
      expect(wide?.upper).toBeGreaterThan(middle?.upper ?? 0);
      expect(middle?.upper).toBeGreaterThan(narrow?.upper ?? 0);
      const events = trips.reduce((sum, trip) => sum + trip.events, 0);
      const plain = garwood(events, middle?.exposure ?? 0, { level });
      if (plain.kind === 'not-estimable') throw new Error(plain.reason);
      expect(middle?.lower).toBeLessThan(plain.lower);
      expect(middle?.upper).toBeGreaterThan(plain.upper);
    }
  });

  test('the limits put back into the Poisson test on effective events give α/2 each', () => {
    const { lower, upper, estimate, effectiveN } = made(bigDay);
    const x = effectiveN ?? Number.NaN;
    expect(gammaTails((lower / estimate) * x, x).lower).toBeCloseTo(0.025, 10);
    expect(gammaTails((upper / estimate) * x, x + 1).upper).toBeCloseTo(0.025, 10);
  });
});

describe('hand-worked cases of ratio-trip', () => {
  test('equal hours have K − 1 degrees of freedom', () => {
    const got = made(tripsOf([0, 1, 4, 2, 2, 6], [30, 30, 30, 30, 30, 30]));
    expect(got.degreesOfFreedom).toBeCloseTo(5, 12);
  });

  test('one trip: Garwood on its hours, marked', () => {
    const got = made(tripsOf([4, 0], [26, 0]));
    const plain = garwood(4, 26, { level });
    expect(got).toMatchObject({ ...plain, method: 'ratio-trip', n: 1, notes: got.notes });
    expect(got.notes[0]).toMatch(/^one trip/);
  });

  test('no event: Garwood on all hours, marked', () => {
    const got = made(tripsOf([0, 0, 0], [20, 31.5, 8]));
    expect(got).toMatchObject({ lower: 0, estimate: 0, clusters: 3, designEffect: null });
    // Hand-worked: −ln(0.025)/59.5.
    expect(got.upper).toBeCloseTo(3.688879454 / 59.5, 10);
    expect(got.notes[0]).toMatch(/^no events/);
  });

  test('events on trips without hours are left out and counted in a note', () => {
    const got = made(tripsOf([3, 2, 1], [8, 0, 9]));
    expect(got.estimate).toBeCloseTo(4 / 17, 12);
    expect(got.notes).toEqual(['Events on trips without recorded effort are left out: 2.']);
  });
});

test('what is no rate is said in words', () => {
  const reason = (events: number[], exposures: number[], method = ratioTrip) => {
    const got = method(tripsOf(events, exposures), { level });
    return got.kind === 'not-estimable' ? got.reason : 'estimated';
  };
  expect(reason([], [])).toBe('No effort was recorded, so there is no rate to speak of.');
  expect(reason([1, 2], [0, 0])).toContain('No effort was recorded');
  expect(reason([1, -2], [5, 6])).toBe('-2 events in an effort of 6 are no counts.');
  expect(reason([1, 2], [5, Number.POSITIVE_INFINITY])).toContain('are no counts');
  expect(reason([3], [5], ratioLogT)).toContain('One trip cannot show');
  expect(reason([0, 0], [5, 6], ratioLogT)).toContain('needs at least one');
});

test('95 % intervals of over-dispersed seasons hold the truth about as often as they say', () => {
  const random = new Random(20_250_302);
  const seasonsDrawn = 1500;
  let held = 0;
  for (let season = 0; season < seasonsDrawn; season++) {
    const trips = Array.from({ length: 20 }, () => {
      const exposure = 20 + 30 * random.uniform();
      return { exposure, events: random.negativeBinomial(0.12 * exposure, 2) };
    });
    const got = ratioTrip(trips, { level });
    if (got.kind === 'estimated' && got.lower <= 0.12 && 0.12 <= got.upper) held++;
  }
  expect(held / seasonsDrawn).toBeGreaterThan(0.935);
  expect(held / seasonsDrawn).toBeLessThan(0.985);
});
