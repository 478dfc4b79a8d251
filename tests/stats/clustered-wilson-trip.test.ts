import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TripProportion } from '../../src/stats/clustered-proportion.ts';
import { wilsonTrip, withinTripCorrelation } from '../../src/stats/clustered-wilson-trip.ts';
import { clopperPearson } from '../../src/stats/interval-proportion-clopper-pearson.ts';
import { wilson } from '../../src/stats/interval-proportion-wilson.ts';
import { Random } from '../../src/stats/random.ts';

const level = 0.95;

function made(trips: readonly TripProportion[], options = { level }) {
  const got = wilsonTrip(trips, options);
  if (got.kind === 'not-estimable') throw new Error(got.reason);
  return got;
}

const tripsOf = (successes: number[], units: number[]) =>
  successes.map((x, i) => ({ successes: x, units: units[i] ?? 0 }));

/** Any season: up to thirty trips of any size, from one bite to a thousand million. */
const seasons = fc.array(
  fc
    .tuple(fc.oneof(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 1e9 })), fc.nat())
    .map(([units, pick]) => ({ units, successes: pick % (units + 1) })),
  { minLength: 1, maxLength: 30 },
);

const twelve = tripsOf([3, 1, 0, 4, 2, 5, 1, 0, 2, 3, 1, 6], [5, 4, 3, 6, 4, 7, 2, 3, 5, 5, 2, 8]);

describe('laws of wilson-trip', () => {
  test('any season gives limits within 0 to 1 that hold the share, or a reason', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const got = wilsonTrip(trips, { level, borrowedCorrelation: 0.3 });
        if (got.kind === 'not-estimable') return got.reason.length > 10;
        const { lower, upper, estimate } = got;
        return lower >= 0 && lower <= estimate && estimate <= upper && upper <= 1;
      }),
      { seed: 1 },
    );
  });

  test('the order of trips and trips without a bite never matter', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const one = wilsonTrip(trips, { level });
        const other = wilsonTrip([...trips, { successes: 0, units: 0 }].reverse(), { level });
        if (one.kind === 'not-estimable') return other.kind === 'not-estimable';
        if (other.kind === 'not-estimable') return false;
        const near = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.abs(a);
        return near(one.lower, other.lower) && near(one.upper, other.upper);
      }),
      { seed: 2 },
    );
  });

  test('successes mirror failures', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const swapped = trips.map(({ units, successes }) => ({
          units,
          successes: units - successes,
        }));
        const one = wilsonTrip(trips, { level });
        const other = wilsonTrip(swapped, { level });
        if (one.kind === 'not-estimable' || other.kind === 'not-estimable')
          return one.kind === other.kind;
        return Math.abs(one.lower - (1 - other.upper)) < 1e-9;
      }),
      { seed: 3 },
    );
  });

  test('99 % holds 95 % holds 90 %', () => {
    const [wide, middle, narrow] = [0.99, 0.95, 0.9].map((l) => made(twelve, { level: l }));
    expect(wide?.lower).toBeLessThan(middle?.lower ?? 0);
    expect(middle?.lower).toBeLessThan(narrow?.lower ?? 0);
    expect(wide?.upper).toBeGreaterThan(middle?.upper ?? 1);
    expect(middle?.upper).toBeGreaterThan(narrow?.upper ?? 1);
  });

  test('it is never narrower than the interval that ignores trips', () => {
    fc.assert(
      fc.property(seasons, (trips) => {
        const got = wilsonTrip(trips, { level });
        if (got.kind === 'not-estimable' || got.designEffect === null) return true;
        if (got.estimate === 0 || got.estimate === 1) return true;
        const plain = wilson(got.estimate * got.n, got.n, { level });
        if (plain.kind === 'not-estimable') return false;
        return got.upper - got.lower >= (plain.upper - plain.lower) * (1 - 1e-9);
      }),
      { seed: 4 },
    );
  });
});

describe('hand-worked cases of wilson-trip', () => {
  test('one bite a trip: d = K/(K − 1), so K − 1 independent bites and t on K − 1', () => {
    const got = made(tripsOf([1, 0, 1, 1, 0, 0, 1, 1, 0, 1], new Array(10).fill(1)));
    expect(got.effectiveN).toBeCloseTo(9, 12);
    expect(got.degreesOfFreedom).toBeCloseTo(9, 12);
  });

  test('equal trips have K − 1 degrees of freedom', () => {
    const got = made(tripsOf([1, 2, 3, 4, 0, 2], [4, 4, 4, 4, 4, 4]));
    expect(got.degreesOfFreedom).toBeCloseTo(5, 12);
  });

  test('one trip: plain Wilson with z, marked', () => {
    const got = made([{ successes: 4, units: 9 }]);
    expect(got).toMatchObject({
      ...wilson(4, 9, { level }),
      method: 'wilson-trip',
      notes: got.notes,
    });
    expect(got.notes[0]).toMatch(/^one trip/);
    expect(got).toMatchObject({ clusters: 1, designEffect: null, degreesOfFreedom: null });
  });

  test('none at all, correlation 0: the exact interval on all bites', () => {
    const trips = tripsOf([0, 0, 0], [4, 4, 4]);
    const got = wilsonTrip(trips, { level, borrowedCorrelation: 0 });
    expect(got).toMatchObject({ ...clopperPearson(0, 12, { level }), method: 'wilson-trip' });
  });

  test('all of them, correlation 1, equal trips: the exact interval on trips', () => {
    const got = wilsonTrip(tripsOf([4, 4, 4], [4, 4, 4]), { level, borrowedCorrelation: 1 });
    // Hand-worked: 3 of 3 has the exact lower limit (α/2)^(1/3).
    expect(got).toMatchObject({ upper: 1, effectiveN: 3, designEffect: 4 });
    expect(got.kind === 'estimated' && got.lower).toBeCloseTo(0.025 ** (1 / 3), 12);
  });

  test('all of them and nothing to borrow: said in a note, unless trips had one bite each', () => {
    const notes = (units: number[]) => wilsonTrip(tripsOf(units, units), { level }).notes.join();
    expect(notes([2, 3])).toContain('may be too narrow');
    expect(notes([1, 1, 1])).toBe('');
  });
});

describe('the correlation to borrow', () => {
  test('undone by wilson-trip: Kish 1965, d = 1 + (m − 1)ρ', () => {
    const rho = withinTripCorrelation(twelve) ?? Number.NaN;
    const units = twelve.map((trip) => trip.units);
    const total = units.reduce((sum, n) => sum + n, 0);
    const size = units.reduce((sum, n) => sum + n * n, 0) / total;
    expect(1 + (size - 1) * rho).toBeCloseTo(made(twelve).designEffect ?? 0, 12);
  });

  test('is held between 0 and 1, and is null where nothing can be told', () => {
    expect(withinTripCorrelation(tripsOf([4, 0, 4, 0], [4, 4, 4, 4]))).toBe(1);
    expect(withinTripCorrelation(tripsOf([2, 2, 2], [4, 4, 4]))).toBe(0);
    expect(withinTripCorrelation(tripsOf([1, 0], [1, 1]))).toBe(0);
    expect(withinTripCorrelation(tripsOf([3, 0], [4, 0]))).toBeNull();
    expect(withinTripCorrelation(tripsOf([4, 5], [4, 5]))).toBeNull();
    expect(withinTripCorrelation([])).toBeNull();
    expect(withinTripCorrelation(tripsOf([5, 1], [4, 2]))).toBeNull();
  });
});

test('what is no proportion is said in words', () => {
  const reason = (trips: TripProportion[]) => {
    const got = wilsonTrip(trips, { level });
    return got.kind === 'not-estimable' ? got.reason : 'estimated';
  };
  expect(reason([])).toBe('Nothing was counted, so there is no share to speak of.');
  expect(reason(tripsOf([0, 0], [0, 0]))).toContain('Nothing was counted');
  expect(reason(tripsOf([2, 5], [3, 4]))).toBe(
    '5 of 4 cannot be: the part is larger than the whole.',
  );
  expect(reason(tripsOf([1, 2], [0, 4]))).toContain('1 of 0 cannot be');
  expect(reason(tripsOf([1, Number.NaN], [2, 4]))).toBe('NaN of 4 are no counts.');
});

test('95 % intervals of over-dispersed seasons hold the truth about as often as they say', () => {
  const random = new Random(20_250_301);
  const seasonsDrawn = 1500;
  let held = 0;
  for (let season = 0; season < seasonsDrawn; season++) {
    const trips = Array.from({ length: 20 }, () => {
      const units = 1 + random.poisson(3);
      return { units, successes: random.binomial(units, random.beta(2.4, 1.6)) };
    });
    const got = wilsonTrip(trips, { level, borrowedCorrelation: 0.2 });
    if (got.kind === 'estimated' && got.lower <= 0.6 && 0.6 <= got.upper) held++;
  }
  // The contract: under is a fault, a little over is the price of few bites a trip.
  expect(held / seasonsDrawn).toBeGreaterThan(0.94);
  expect(held / seasonsDrawn).toBeLessThan(0.985);
});
