import { describe, expect, test } from 'vitest';
import { idealBootstrapRatio } from '../../src/stats/bootstrap-ideal.ts';
import { bcaLevels, bootstrapIntervals } from '../../src/stats/bootstrap-interval.ts';
import { ratioBootstrapBca } from '../../src/stats/bootstrap-ratio.ts';
import { bootstrapTotals, drawnRatios } from '../../src/stats/bootstrap-totals.ts';
import { clusterRatio } from '../../src/stats/clustered-ratio.ts';
import { accelerationOf, jackknifeRatio } from '../../src/stats/jackknife-ratio.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

interface Inputs {
  numerator: number[];
  denominator: number[];
  level: number;
}

const tripsOf = (events: readonly number[], exposures: readonly number[]) =>
  events.map((count, i) => ({ events: count, exposure: exposures[i] ?? 0 }));

/** Ratios of one group that occurs on every trip. */
function replicatesOf({ numerator, denominator }: Inputs, draws: number, seed: number) {
  const trips = numerator.map((_, i) => i);
  const group = { trips, numerators: numerator, denominators: denominator };
  const [totals] = bootstrapTotals([group], { trips: trips.length, draws, seed });
  if (totals === undefined) throw new Error('no totals');
  return drawnRatios(totals);
}

describe('reference cases 03-rates: the whole bootstrap distribution, enumerated in R', () => {
  test.each(loadReference<Inputs>('03-rates', 'ideal-boot-'))('$id', (reference) => {
    const { numerator, denominator, level } = reference.inputs;
    const got = idealBootstrapRatio(numerator, denominator, { level });
    expectClose(got, reference.expected, reference.tolerance);
  });

  test.each(loadReference<Inputs>('03-rates', 'ideal-boot-'))(
    '$id by seeded draws',
    (reference) => {
      const expected = reference.expected as unknown as Record<string, number>;
      const draws = 20_000;
      const replicates = replicatesOf(reference.inputs, draws, 11);
      const mean = replicates.reduce((total, value) => total + value, 0) / draws;
      const squares = replicates.reduce((total, value) => total + (value - mean) ** 2, 0);
      const se = Math.sqrt(squares / draws);
      const { bootMean = 0, bootSe = 0, probBelowEstimate: below = 0, estimate = 0 } = expected;
      // Four Monte Carlo standard errors, as the case's own note asks.
      expect(Math.abs(mean - bootMean)).toBeLessThan((4 * bootSe) / Math.sqrt(draws));
      expect(Math.abs(se - bootSe)).toBeLessThan((4 * bootSe) / Math.sqrt(2 * draws));
      const lower = replicates.filter((value) => value < estimate * (1 - 1e-12)).length / draws;
      expect(Math.abs(lower - below)).toBeLessThan(4 * Math.sqrt((below * (1 - below)) / draws));
    },
  );

  test('is not attempted where it is too large or empty', () => {
    const eleven = Array.from({ length: 11 }, () => 1);
    expect(idealBootstrapRatio(eleven, eleven, { level: 0.95 })).toBeNull();
    expect(idealBootstrapRatio([3], [5], { level: 0.95 })).toBeNull();
  });
});

describe('reference cases 03-rates: intervals from a given list of replicates (R boot)', () => {
  interface Given extends Inputs {
    estimate: number;
    replicates: number[];
    empiricalInfluence: number[];
  }
  test.each(loadReference<Given>('03-rates', 'given-boot-'))('$id', (reference) => {
    const { estimate, replicates, empiricalInfluence, level } = reference.inputs;
    const acceleration = accelerationOf(empiricalInfluence);
    const got = bootstrapIntervals({ estimate, replicates, acceleration, level });
    expectClose({ ...got, acceleration }, reference.expected, reference.tolerance);
  });
});

describe('reference cases 03-rates: seeded bootstrap (R boot, its influence values)', () => {
  interface Seeded extends Inputs {
    resamples: number;
  }
  test.each(loadReference<Seeded>('03-rates', 'seeded-boot-'))('$id', (reference) => {
    const { numerator, denominator, level, resamples } = reference.inputs;
    const totals = clusterRatio(numerator, denominator);
    if (totals === null) throw new Error('no ratio');
    const { se, bias, ...intervals } = bootstrapIntervals({
      estimate: totals.ratio,
      replicates: replicatesOf(reference.inputs, resamples, 2024),
      acceleration: accelerationOf(totals.residuals),
      level,
    });
    const got = { ...intervals, estimate: totals.ratio, bootSe: se, bootBias: bias };
    expectClose(got, reference.expected, reference.tolerance);
  });
});

describe('bootstrap-bca of a rate', () => {
  const trips = tripsOf([2, 0, 3, 1, 0, 5, 2, 4], [6.5, 4, 8, 5.5, 3, 9, 6, 7.25]);

  test('comes near the enumerated BCa interval of the same trips', () => {
    type Expected = Record<'bcaMidTies', { lower: number; upper: number }>;
    const [reference] = loadReference<Inputs, Expected>('03-rates', 'ideal-boot-trips');
    const { lower = 0, upper = 0 } = reference?.expected.bcaMidTies ?? {};
    const got = ratioBootstrapBca(trips, { level: 0.95, seed: 1, draws: 20_000 });
    // Three per cent of the width, as the case's note asks of 10,000 draws.
    expectClose(got, { lower, upper }, { rel: 0, abs: 0.03 * (upper - lower) });
  });

  test('is the same for the same seed, and marked where trips are few', () => {
    const once = ratioBootstrapBca(trips, { level: 0.9, seed: 5 });
    expect(ratioBootstrapBca(trips, { level: 0.9, seed: 5 })).toEqual(once);
    expect(ratioBootstrapBca(trips, { level: 0.9, seed: 6 })).not.toEqual(once);
    expect(once.notes.join()).toContain('few trips');
    expect(ratioBootstrapBca([...trips, ...trips], { level: 0.9, seed: 5 }).notes).toEqual([]);
  });

  test('says why where redrawing says nothing', () => {
    const reason = (events: number[], exposures: number[]) => {
      const got = ratioBootstrapBca(tripsOf(events, exposures), { level: 0.95, seed: 1 });
      return got.kind === 'not-estimable' ? got.reason : 'estimated';
    };
    expect(reason([], [])).toContain('No effort was recorded');
    expect(reason([4, 2], [9, 0])).toContain('One trip cannot show');
    expect(reason([0, 0, 0], [4, 5, 6])).toContain('cannot bring one');
    expect(reason([2, 4], [3, 6])).toContain('no spread');
    expect(reason([1, Number.NaN], [3, 6])).toContain('are no counts');
  });
});

describe('redrawn totals', () => {
  const groups = [
    { trips: [0, 1, 2, 3], numerators: [1, 1, 1, 1], denominators: [2, 4, 6, 8] },
    { trips: [1, 3], numerators: [0, 3], denominators: [4, 8] },
    { trips: [0, 2], numerators: [1, 5], denominators: [2, 6] },
  ];
  const draws = 1003;
  const [all, odd, even] = bootstrapTotals(groups, { trips: 4, draws, seed: 9 });

  test('every draw has as many trips as the log', () => {
    expect(all?.numerators).toEqual(new Float64Array(draws).fill(4));
  });

  test('groups of one draw share its trips', () => {
    const joined = odd?.denominators.map((value, i) => value + (even?.denominators[i] ?? 0));
    expect(joined).toEqual(all?.denominators);
  });

  test('a draw without the group has no ratio', () => {
    if (odd === undefined) throw new Error('no totals');
    const without = odd.denominators.filter((value) => value === 0).length;
    // Chance of missing both trips in four draws: (1/2)⁴.
    expect(Math.abs(without / draws - 1 / 16)).toBeLessThan(4 * Math.sqrt(15 / 256 / draws));
    expect(drawnRatios(odd).length).toBe(draws - without);
    expect(drawnRatios(odd).every(Number.isFinite)).toBe(true);
  });
});

test('BCa levels without bias or acceleration are the plain percentile ones, and stay in [0, 1]', () => {
  const [low, high] = bcaLevels({ z0: 0, acceleration: 0, level: 0.9 });
  expect(low).toBeCloseTo(0.05, 12);
  expect(high).toBeCloseTo(0.95, 12);
  expect(bcaLevels({ z0: Number.NEGATIVE_INFINITY, acceleration: 0.1, level: 0.9 })).toEqual([
    0, 0,
  ]);
  const [, beyond] = bcaLevels({ z0: 1, acceleration: 0.9, level: 0.9 });
  expect(beyond).toBe(1);
});

test('acceleration is 0 for influence values that mirror each other', () => {
  expect(accelerationOf([-2, -1, 1, 2])).toBe(0);
  expect(jackknifeRatio([1, 2, 3], [5, 5, 5])?.acceleration).toBeCloseTo(0, 15);
});
