import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { estimated } from '../../src/base/estimate.ts';
import type { PlanBasis } from '../../src/estimate/plan-basis.ts';
import {
  detectableByPlan,
  MOST_TRIPS,
  plannedRates,
  planPower,
  tripsNeeded,
} from '../../src/estimate/plan-power.ts';

interface Parts {
  readonly base: number;
  readonly weights: readonly number[];
  readonly designEffect?: number;
  readonly design?: PlanBasis['design'];
}

function basisOf({ base, weights, designEffect = 1, design = 'sides' }: Parts): PlanBasis {
  const limits = { estimate: base, lower: base, upper: base };
  return {
    kind: 'planned',
    design,
    base: estimated({ ...limits, level: 0.95, method: 'given', n: 1, exposure: null, notes: [] }),
    baseFrom: 'log',
    newLevels: [],
    pace: {
      trips: weights.length,
      days: 100,
      tripsPerWeek: 3,
      unitsPerTrip: 10,
      bitesPerTrip: 10,
      tripsWithEither: 0,
      tripsWithBoth: 0,
    },
    strata: { from: 'sides', pairs: [], weights },
    spread: { designEffect, from: 'sides', strata: weights.length, correlation: 0 },
  };
}

const share = { measure: 'hookup_rate', level: 0.95, power: 0.8 } as const;

describe('trips that all bring the same', () => {
  // R 4.2.2: p1 = p2 ± d towards a half, se = sqrt((p1 q1 + p2 q2)/2 / (trips · m/4)), df = trips − 1;
  // 1 - pt(qt(.975, df), df, d/se).
  test.each([
    [20, 12, 0.6, 0.1, 0.3178240098],
    [60, 12, 0.6, 0.1, 0.759969448],
    [40, 8, 0.3, 0.15, 0.7809825532],
    [12, 20, 0.87, 0.1, 0.4584369704],
  ])('%s trips of %s bites at %s, difference %s', (trips, bites, base, difference, power) => {
    const basis = basisOf({ base, weights: [bites / 4] });
    expect(planPower(basis, { ...share, difference }, trips)).toBeCloseTo(power, 7);
  });

  // R 4.2.2: the least even number with the same formula at 0.8 or more.
  test.each([
    [12, 0.6, 0.1, 68],
    [8, 0.3, 0.15, 42],
    [20, 0.87, 0.05, 84],
  ])('%s bites a trip at %s, difference %s need trips', (bites, base, difference, trips) => {
    const basis = basisOf({ base, weights: [bites / 4] });
    expect(tripsNeeded(basis, { ...share, difference })).toBe(trips);
  });

  test('a rate: R 4.2.2, log ratio, se = sqrt((1/a + 1/b)/2 / (trips · hours/4))', () => {
    const basis = basisOf({ base: 0.4, weights: [20 / 4] });
    const target = { ...share, measure: 'bites_per_line_hour', difference: 0.3 } as const;
    expect(planPower(basis, target, 30)).toBeCloseTo(0.551292931, 7);
  });

  test('many trips of two bites ask for as many bites as Fleiss does, but for his pooled variance', () => {
    // Fleiss 1981: .25 against .40, 80 % power: 151.9 in each group, 152.4 by R power.prop.test.
    const basis = basisOf({ base: 0.25, weights: [2 / 4] });
    const trips = tripsNeeded(basis, { ...share, difference: 0.15 }) ?? 0;
    expect(trips / 151.9).toBeGreaterThan(0.97);
    expect(trips / 151.9).toBeLessThan(1.03);
  });

  test('whole days: two trips make one stratum', () => {
    const target = { ...share, difference: 0.1 };
    const sides = basisOf({ base: 0.6, weights: [3] });
    const days = basisOf({ base: 0.6, weights: [3], design: 'days' });
    expect(planPower(days, target, 80)).toBe(planPower(sides, target, 40));
    expect(planPower(days, target, 81)).toBe(planPower(days, target, 80));
  });
});

describe('what a plan is reckoned with', () => {
  test('the direction that is harder to tell: a share towards a half, a rate upwards', () => {
    const rates = (base: number) =>
      plannedRates(basisOf({ base, weights: [1] }), { ...share, difference: 0.1 });
    expect(rates(0.87)[0]).toBeCloseTo(0.77, 12);
    expect(rates(0.3)[0]).toBeCloseTo(0.4, 12);
    const rate = { measure: 'caught_per_line_hour', difference: 0.1 } as const;
    expect(plannedRates(basisOf({ base: 2, weights: [1] }), rate)[0]).toBeCloseTo(2.2, 12);
  });

  test('fewer than two trips that tell anything have no power at all', () => {
    const target = { ...share, difference: 0.3 };
    expect(planPower(basisOf({ base: 0.6, weights: [5] }), target, 1)).toBe(0);
    expect(planPower(basisOf({ base: 0.6, weights: [0, 0, 0, 9] }), target, 4)).toBe(0);
  });

  test('a difference beyond any boat needs more trips than are counted', () => {
    const basis = basisOf({ base: 0.6, weights: [0.5] });
    expect(tripsNeeded(basis, { ...share, difference: 1e-4 })).toBeNull();
    expect(planPower(basis, { ...share, difference: 1e-4 }, MOST_TRIPS)).toBeLessThan(0.8);
  });
});

describe('laws', () => {
  const bases = fc.record({
    base: fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    weights: fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 4, maxLength: 30 }),
    designEffect: fc.double({ min: 0.7, max: 4, noNaN: true }),
  });
  const usable = bases
    .filter(({ weights }) => weights.filter((weight) => weight > 0).length > weights.length / 2)
    .map((parts) => ({ parts, basis: basisOf(parts) }));
  const runs = { seed: 52, numRuns: 12 };

  test('more trips tell more, and so does a larger difference', () => {
    fc.assert(
      fc.property(usable, ({ basis }) => {
        const at = (trips: number, difference: number) =>
          planPower(basis, { ...share, difference }, trips);
        expect(at(80, 0.1)).toBeGreaterThanOrEqual(at(20, 0.1));
        expect(at(40, 0.2)).toBeGreaterThan(at(40, 0.1));
      }),
      runs,
    );
  });

  test('the trips needed are the fewest even number with the power asked', () => {
    fc.assert(
      fc.property(usable, ({ basis }) => {
        const target = { ...share, difference: 0.15 };
        const trips = tripsNeeded(basis, target);
        if (trips === null) return;
        expect(trips % 2).toBe(0);
        expect(planPower(basis, target, trips)).toBeGreaterThanOrEqual(0.8);
        if (trips > 4) expect(planPower(basis, target, trips - 2)).toBeLessThan(0.8);
      }),
      runs,
    );
  });

  test('the smallest difference told is told with just the power asked', () => {
    fc.assert(
      fc.property(usable, ({ basis }) => {
        const difference = detectableByPlan(basis, share, 60);
        if (difference === null) return;
        expect(planPower(basis, { ...share, difference }, 60)).toBeCloseTo(0.8, 3);
      }),
      runs,
    );
  });

  test('bites that are more alike need more trips', () => {
    fc.assert(
      fc.property(usable, ({ parts }) => {
        const needs = (designEffect: number) =>
          tripsNeeded(basisOf({ ...parts, designEffect }), { ...share, difference: 0.2 }) ??
          MOST_TRIPS;
        expect(needs(2)).toBeGreaterThan(needs(1));
      }),
      runs,
    );
  });
});
