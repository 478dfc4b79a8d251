import { describe, expect, test } from 'vitest';
import type { Interval } from '../../src/base/estimate.ts';
import type { BetweenVarianceMethod } from '../../src/stats/pool-between-variance.ts';
import { poolFixed } from '../../src/stats/pool-fixed.ts';
import { hartungKnapp } from '../../src/stats/pool-hartung-knapp.ts';
import { heterogeneity } from '../../src/stats/pool-heterogeneity.ts';
import { leaveOneOut } from '../../src/stats/pool-leave-one-out.ts';
import { poolRandom, type RandomEffect } from '../../src/stats/pool-random.ts';
import type { Study } from '../../src/stats/pool-study.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

interface Inputs {
  effects: number[];
  variances: number[];
  level: number;
}

const METHODS = ['derSimonianLaird', 'pauleMandel', 'reml'] as const;

const studiesOf = ({ effects, variances }: Inputs): Study[] =>
  effects.map((effect, i) => ({ effect, variance: variances[i] as number }));

function pooled(studies: readonly Study[], method: BetweenVarianceMethod = 'reml'): RandomEffect {
  const result = poolRandom(studies, { level: 0.95, method });
  if (result.kind === 'not-estimable') throw new Error(result.reason);
  return result;
}

describe('reference cases 11-meta (R formulas and metafor; figures of its documentation)', () => {
  const cases = loadReference<Inputs>('11-meta').filter(({ inputs }) => 'effects' in inputs);
  test.each(cases)('$id', ({ inputs, expected, tolerance }) => {
    const studies = studiesOf(inputs);
    const random = METHODS.map((method) => [
      method,
      poolRandom(studies, { level: inputs.level, method }),
    ]);
    const got = {
      k: studies.length,
      heterogeneity: heterogeneity(studies, inputs),
      fixed: poolFixed(studies, inputs),
      ...Object.fromEntries(random),
    };
    expectClose(got, expected, tolerance);
  });
});

describe('reference cases 24-pooling (metafor confint, leave1out)', () => {
  test.each(loadReference<Inputs>('24-pooling', 'limits-'))('$id', (reference) => {
    const got = heterogeneity(studiesOf(reference.inputs), reference.inputs);
    expectClose(got, reference.expected, reference.tolerance);
  });

  test.each(loadReference<Inputs>('24-pooling', 'leave-'))('$id', (reference) => {
    const { level } = reference.inputs;
    const studies = studiesOf(reference.inputs);
    const fixed = leaveOneOut(studies, (rest) => poolFixed(rest, { level }));
    const got = { fixed: columns(fixed), derSimonianLaird: {}, reml: {} };
    for (const method of ['derSimonianLaird', 'reml'] as const)
      got[method] = columns(leaveOneOut(studies, (rest) => poolRandom(rest, { level, method })));
    expectClose(got, reference.expected, reference.tolerance);
  });

  /** Results as one list for each of their fields. */
  function columns(results: readonly object[]): Record<string, unknown[]> {
    const fields = Object.keys(results[0] ?? {}) as never[];
    return Object.fromEntries(fields.map((name) => [name, results.map((result) => result[name])]));
  }
});

describe('laws', () => {
  const studies = [
    { effect: 0.31, variance: 0.06 },
    { effect: -0.52, variance: 0.045 },
    { effect: 0.45, variance: 0.11 },
    { effect: 0.92, variance: 0.038 },
  ];
  const margin = ({ lower, upper }: Interval): number => (upper - lower) / 2;

  test.each(METHODS)('%s: adding 5 to every effect moves the mean and nothing else', (method) => {
    const moved = studies.map(({ effect, variance }) => ({ effect: effect + 5, variance }));
    const [here, there] = [pooled(studies, method), pooled(moved, method)];
    expect(there.estimate - here.estimate).toBeCloseTo(5, 9);
    expect(there.tau2).toBeCloseTo(here.tau2, 9);
    expect(margin(there)).toBeCloseTo(margin(here), 9);
  });

  test.each(METHODS)('%s: ten times the unit gives ten times the figures', (method) => {
    const scaled = studies.map((s) => ({ effect: 10 * s.effect, variance: 100 * s.variance }));
    const [here, there] = [pooled(studies, method), pooled(scaled, method)];
    expect(there.estimate / here.estimate).toBeCloseTo(10, 8);
    expect(there.tau2 / here.tau2).toBeCloseTo(100, 6);
    expect(there.I2percent).toBeCloseTo(here.I2percent, 8);
  });

  test('studies in another order give the same', () => {
    const turned = pooled([...studies].reverse());
    expect(turned.estimate).toBeCloseTo(pooled(studies).estimate, 12);
    expect(turned.weightsPercent.toReversed()).toEqual(
      pooled(studies).weightsPercent.map((weight) => expect.closeTo(weight, 9)),
    );
  });

  test('the next study is less sure than the mean, and the mean of boats less than of one', () => {
    const result = pooled(studies);
    const predicted = result.predictionInterval as Interval;
    expect(margin(predicted)).toBeGreaterThan(margin(result.hartungKnapp as never));
    const fixed = poolFixed(studies, { level: 0.95 });
    expect(margin(result)).toBeGreaterThan(margin(fixed as never));
  });

  test('the Q-profile limits of τ² hold the Paule–Mandel estimate', () => {
    const { tau2 } = pooled(studies, 'pauleMandel');
    const { tau2: limits } = heterogeneity(studies, { level: 0.95 }) as { tau2: Interval };
    expect(tau2).toBeGreaterThan(limits.lower);
    expect(tau2).toBeLessThan(limits.upper);
  });
});

describe('where nothing can be pooled', () => {
  const one = [{ effect: 0.2, variance: 0.04 }];

  test('no study', () => {
    const nothing = { kind: 'not-estimable', reason: 'There is nothing to pool.', n: 0 };
    expect(poolFixed([], { level: 0.95 })).toMatchObject(nothing);
    expect(poolRandom([], { level: 0.95, method: 'reml' })).toMatchObject(nothing);
    expect(heterogeneity([], { level: 0.95 })).toMatchObject({ kind: 'not-estimable' });
  });

  test('one study: its own interval, said to be unpooled; no spread between studies', () => {
    const alone = poolFixed(one, { level: 0.95 });
    expect(alone).toMatchObject({ estimate: expect.closeTo(0.2, 12), weightsPercent: [100] });
    expect(alone.notes).toEqual(['One study alone: nothing was pooled.']);
    const refused = { kind: 'not-estimable', reason: expect.stringContaining('One study alone') };
    expect(poolRandom(one, { level: 0.95, method: 'reml' })).toMatchObject(refused);
    expect(heterogeneity(one, { level: 0.95 })).toMatchObject(refused);
    expect(hartungKnapp(one, 0, { level: 0.95 })).toMatchObject(refused);
    const rest = leaveOneOut(one, (others) => poolFixed(others, { level: 0.95 }));
    expect(rest).toMatchObject([{ kind: 'not-estimable' }]);
  });

  test('two studies: a mean, but no place for a third', () => {
    const two = pooled([...one, { effect: 0.5, variance: 0.03 }]);
    expect(two.predictionInterval).toMatchObject({
      kind: 'not-estimable',
      reason: expect.stringContaining('three studies'),
    });
  });

  test('identical effects: no scatter, so no Hartung–Knapp interval, but a plain one', () => {
    const same = pooled(Array.from({ length: 5 }, () => ({ effect: 0.3, variance: 0.02 })));
    expect(same).toMatchObject({ tau2: 0, I2percent: 0, H2: 1, estimate: expect.closeTo(0.3) });
    expect(same.hartungKnapp).toMatchObject({
      kind: 'not-estimable',
      reason: expect.stringContaining('agree to the last digit'),
    });
    expect(same.upper).toBeGreaterThan(same.lower);
  });

  test.each([
    ['zero variance', { effect: 0.1, variance: 0 }, 'no variance'],
    ['no variance', { effect: 0.1, variance: Number.NaN }, 'no variance'],
    ['infinite variance', { effect: 0.1, variance: Number.POSITIVE_INFINITY }, 'no variance'],
    ['infinite effect', { effect: Number.NEGATIVE_INFINITY, variance: 1 }, 'infinite'],
  ])('%s', (_, study, words) => {
    const reason = expect.stringContaining(words);
    const studies = [...one, study];
    expect(poolFixed(studies, { level: 0.95 })).toMatchObject({ kind: 'not-estimable', reason });
    for (const method of METHODS)
      expect(poolRandom(studies, { level: 0.95, method })).toMatchObject({ reason });
    expect(heterogeneity(studies, { level: 0.95 })).toMatchObject({ reason });
  });
});
