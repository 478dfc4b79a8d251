import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clusterSize, designEffect } from '../../src/stats/design-effect.ts';
import type { PlannedComparison, PlannedTest } from '../../src/stats/power-plan.ts';
import { powerTwoProportions } from '../../src/stats/power-two-proportions.ts';
import { powerTwoRates } from '../../src/stats/power-two-rates.ts';
import type { SampleSize } from '../../src/stats/sample-size.ts';
import {
  sampleSizeTwoProportions,
  sampleSizeTwoProportionsCorrected,
} from '../../src/stats/sample-size-two-proportions.ts';
import { sampleSizeTwoRates } from '../../src/stats/sample-size-two-rates.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

/** The result, or a failure where a plan was expected. */
function planned<Result extends object>(result: Result) {
  if ('kind' in result && result.kind === 'not-estimable') throw new Error('refused');
  return result as Exclude<Result, { kind: 'not-estimable' }>;
}

const sizes = (result: ReturnType<typeof sampleSizeTwoProportions>): SampleSize => planned(result);

type ProportionPlan = PlannedComparison & { p1: number; p2: number };

describe('reference cases 08-power (R power.prop.test)', () => {
  const powers = loadReference<PlannedTest & { p1: number; p2: number; nPerGroup: number }>(
    '08-power',
    'power-',
  );
  test.each(powers)('$id', ({ inputs, expected, tolerance }) => {
    const { p1, p2, nPerGroup, ...plan } = inputs;
    const each = { unitsA: nPerGroup, unitsB: nPerGroup };
    expectClose(powerTwoProportions({ a: p1, b: p2 }, each, plan), expected, tolerance);
  });

  type Clustered = ProportionPlan & { unitsPerCluster?: number; icc?: number };
  test.each(loadReference<Clustered>('08-power', 'n-'))('$id', (reference) => {
    const { p1, p2, unitsPerCluster, icc, ...plan } = reference.inputs;
    const { a, b } = sizes(sampleSizeTwoProportions({ a: p1, b: p2 }, { ...plan, allocation: 1 }));
    expect(b).toEqual(a);
    const got = { nPerGroup: a.units, nPerGroupCeiling: a.wholeUnits };
    if (unitsPerCluster === undefined || icc === undefined)
      return expectClose(got, reference.expected, reference.tolerance);
    const effect = designEffect(unitsPerCluster, icc);
    const inflated = clusterSize(a.units, { unitsPerCluster, designEffect: effect });
    const all = {
      ...got,
      designEffect: inflated.designEffect,
      nPerGroupInflated: inflated.units,
      nPerGroupInflatedCeiling: inflated.wholeUnits,
      clustersPerGroup: inflated.clusters,
    };
    expectClose(all, reference.expected, reference.tolerance);
  });
});

describe('reference cases 24-planning: unequal groups (Hmisc) and rates (R, statsmodels)', () => {
  test.each(loadReference<ProportionPlan>('24-planning', 'n-'))('$id', (reference) => {
    const { p1, p2, ...plan } = reference.inputs;
    const plain = sizes(sampleSizeTwoProportions({ a: p1, b: p2 }, plan));
    const corrected = sizes(sampleSizeTwoProportionsCorrected({ a: p1, b: p2 }, plan));
    const got = {
      unitsA: plain.a.units,
      unitsB: plain.b.units,
      correctedA: corrected.a.units,
      correctedB: corrected.b.units,
    };
    expectClose(got, reference.expected, reference.tolerance);
  });

  type Powered = PlannedTest & { p1: number; p2: number; unitsA: number; unitsB: number };
  test.each(loadReference<Powered>('24-planning', 'power-'))('$id', (reference) => {
    const { p1, p2, unitsA, unitsB, ...plan } = reference.inputs;
    const got = powerTwoProportions({ a: p1, b: p2 }, { unitsA, unitsB }, plan);
    expectClose(got, reference.expected, reference.tolerance);
  });

  type Rates = PlannedComparison & { rateA: number; rateB: number };
  test.each(loadReference<Rates>('24-planning', 'rates-n-'))('$id', (reference) => {
    const { rateA, rateB, ...plan } = reference.inputs;
    const { a, b } = planned(sampleSizeTwoRates({ a: rateA, b: rateB }, plan));
    const got = { exposureA: a.units, exposureB: b.units };
    expectClose(got, reference.expected, reference.tolerance);
  });

  type RatePower = PlannedTest & {
    rateA: number;
    rateB: number;
    exposureA: number;
    exposureB: number;
  };
  test.each(loadReference<RatePower>('24-planning', 'rates-power-'))('$id', (reference) => {
    const { rateA, rateB, exposureA, exposureB, ...plan } = reference.inputs;
    const got = powerTwoRates({ a: rateA, b: rateB }, { exposureA, exposureB }, plan);
    expectClose(got, reference.expected, reference.tolerance);
  });
});

describe('check values of topic 4', () => {
  const test5 = { alpha: 0.05, sided: 2 } as const;

  // Source: R stats::power.prop.test help-page example.
  test('power-prop', () => {
    const { inputs, expected, tolerance } = loadCheckValue<ProportionPlan>('power-prop');
    const pair = { a: inputs.p1, b: inputs.p2 };
    const plan = { ...test5, power: inputs.power, allocation: 1 };
    const found = planned(powerTwoProportions(pair, { unitsA: 50, unitsB: 50 }, test5));
    const got = {
      n_per_arm: sizes(sampleSizeTwoProportions(pair, plan)).a.units,
      power_at_n50: found.power,
    };
    expectClose(got, expected, tolerance);
  });

  // Source: Fleiss 1981; Casagrande, Pike & Smith 1978.
  test('fleiss-n', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{ cases: number[][] }>('fleiss-n');
    const of = (size: typeof sampleSizeTwoProportions) =>
      inputs.cases.map(([a = 0, b = 0, power = 0]) => {
        return sizes(size({ a, b }, { ...test5, power, allocation: 1 })).a.units;
      });
    const got = {
      n_uncorrected: of(sampleSizeTwoProportions),
      n_fleiss_cc: of(sampleSizeTwoProportionsCorrected),
    };
    expectClose(got, expected, tolerance);
  });

  // Source: Kish 1965.
  test('deff', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{ m: number; icc: number }>('deff');
    expectClose({ deff: designEffect(inputs.m, inputs.icc) }, expected, tolerance);
  });
});

describe('laws', () => {
  const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
  const plans = fc.record({
    alpha: fc.constantFrom(0.01, 0.05, 0.1),
    sided: fc.constantFrom(1 as const, 2 as const),
    power: fc.constantFrom(0.7, 0.8, 0.9),
    allocation: fc.double({ min: 0.1, max: 10, noNaN: true }),
  });

  test('the size found gives back the power asked for, for proportions and for rates', () => {
    fc.assert(
      fc.property(share, share, plans, (a, b, plan) => {
        fc.pre(Math.abs(a - b) > 1e-3);
        const n = sizes(sampleSizeTwoProportions({ a, b }, plan));
        const held = { unitsA: n.a.units, unitsB: n.b.units };
        const got = planned(powerTwoProportions({ a, b }, held, plan));
        expect(got.power).toBeCloseTo(plan.power, 8);
        const hours = planned(sampleSizeTwoRates({ a, b }, plan));
        const exposure = { exposureA: hours.a.units, exposureB: hours.b.units };
        expect(planned(powerTwoRates({ a, b }, exposure, plan)).power).toBeCloseTo(plan.power, 8);
      }),
      { seed: 7 },
    );
  });

  test('naming the groups the other way round swaps the sizes', () => {
    fc.assert(
      fc.property(share, share, plans, (a, b, plan) => {
        fc.pre(Math.abs(a - b) > 1e-3);
        const forth = sizes(sampleSizeTwoProportions({ a, b }, plan));
        const turned = { ...plan, allocation: 1 / plan.allocation };
        const back = sizes(sampleSizeTwoProportions({ a: b, b: a }, turned));
        expect(back.a.units / forth.b.units).toBeCloseTo(1, 9);
        expect(back.b.units / forth.a.units).toBeCloseTo(1, 9);
      }),
      { seed: 7 },
    );
  });

  test('rare events: proportions and rates need the same', () => {
    const plan = { alpha: 0.05, sided: 2 as const, power: 0.8, allocation: 2.5 };
    const pair = { a: 2e-7, b: 3e-7 };
    const [n, hours] = [
      sizes(sampleSizeTwoProportions(pair, plan)),
      planned(sampleSizeTwoRates(pair, plan)),
    ];
    expect(n.a.units / hours.a.units).toBeCloseTo(1, 5);
  });

  test('a thousand times the rates in a thousandth of the unit need the same events', () => {
    const plan = { alpha: 0.05, sided: 2 as const, power: 0.8, allocation: 0.4 };
    const hours = planned(sampleSizeTwoRates({ a: 0.2, b: 0.3 }, plan));
    const seconds = planned(sampleSizeTwoRates({ a: 0.2 / 3600, b: 0.3 / 3600 }, plan));
    expect(seconds.a.units / hours.a.units).toBeCloseTo(3600, 6);
  });
});

describe('where nothing can be planned', () => {
  const plan = { alpha: 0.05, sided: 2 as const, power: 0.8, allocation: 1 };

  test('equal values: no size is enough', () => {
    const equal = { kind: 'not-estimable', reason: expect.stringContaining('no amount of data') };
    expect(sampleSizeTwoProportions({ a: 0.4, b: 0.4 }, plan)).toEqual(equal);
    expect(sampleSizeTwoProportionsCorrected({ a: 0.4, b: 0.4 }, plan)).toEqual(equal);
    expect(sampleSizeTwoRates({ a: 0, b: 0 }, plan)).toEqual(equal);
  });

  test('nothing to compare, or nobody to compare', () => {
    const each = { unitsA: 10, unitsB: 10 };
    expect(powerTwoProportions({ a: 0, b: 0 }, each, plan)).toMatchObject({
      kind: 'not-estimable',
    });
    expect(powerTwoProportions({ a: 1, b: 1 }, each, plan)).toMatchObject({
      kind: 'not-estimable',
    });
    const none = { exposureA: 0, exposureB: 5 };
    expect(powerTwoRates({ a: 1, b: 2 }, none, plan)).toMatchObject({ kind: 'not-estimable' });
    const still = { exposureA: 3, exposureB: 5 };
    expect(powerTwoRates({ a: 0, b: 0 }, still, plan)).toMatchObject({ kind: 'not-estimable' });
  });

  test('all against none is found for sure by a few', () => {
    const found = planned(powerTwoProportions({ a: 1, b: 0 }, { unitsA: 9, unitsB: 9 }, plan));
    expect(found.power).toBe(1);
    expect(sizes(sampleSizeTwoProportions({ a: 1, b: 0 }, plan)).a.wholeUnits).toBe(2);
  });

  test('a mistake of the caller throws', () => {
    expect(() => sampleSizeTwoProportions({ a: 1.2, b: 0.4 }, plan)).toThrow('between 0 and 1');
    expect(() => sampleSizeTwoRates({ a: -1, b: 2 }, plan)).toThrow('0 or more');
    expect(() => sampleSizeTwoRates({ a: 1, b: 2 }, { ...plan, power: 1 })).toThrow('power');
    expect(() => sampleSizeTwoRates({ a: 1, b: 2 }, { ...plan, allocation: 0 })).toThrow('share');
    expect(() => clusterSize(10, { unitsPerCluster: 0, designEffect: 2 })).toThrow('cluster');
  });
});
