import { describe, expect, test } from 'vitest';
import { poolRates } from '../../src/share/pool-rates.ts';
import type { Measure } from '../../src/tally/measures.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

interface Inputs {
  readonly scale: 'rate' | 'share';
  readonly numerator: readonly number[];
  readonly denominator: readonly number[];
  readonly designEffect: readonly number[];
  readonly level: number;
}
type Limits = { estimate: number; lower: number; upper: number };
interface Expected {
  readonly fixed: Limits;
  readonly hartungKnapp: Limits;
  readonly random: Limits;
  readonly tau2: number;
  readonly Q: number;
  readonly leaveOneOut: readonly Limits[];
}

const pool = (inputs: Omit<Inputs, 'level'>, level = 0.95) => {
  const measure: Measure = inputs.scale === 'rate' ? 'bites_per_line_hour' : 'hookup_rate';
  const packages = inputs.numerator.map((numerator, at) => {
    const denominator = inputs.denominator[at] ?? 0;
    const designEffect = inputs.designEffect[at] ?? null;
    return {
      label: `boat ${at}`,
      rates: [{ measure, numerator, denominator, trips: 9, designEffect }],
    };
  });
  const [pooled] = poolRates(packages, level);
  if (pooled === undefined) throw new Error('nothing was pooled');
  return pooled;
};

describe('packages together', () => {
  // metafor 3.8.1, tests/reference/26-pooled-packages.R.
  test.each(loadReference<Inputs, Expected>('26-pooled-packages'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const pooled = pool(inputs, inputs.level);
      for (const name of ['fixed', 'hartungKnapp', 'random'] as const) {
        expectClose(pooled[name], expected[name], tolerance, name);
      }
      expectClose(pooled.tau2, expected.tau2, tolerance, 'tau2');
      expectClose(pooled.heterogeneity?.Q, expected.Q, tolerance, 'Q');
      if (expected.leaveOneOut.length > 0) {
        const rest = pooled.leaveOneOut.map((one) => one.pooled);
        expectClose(rest, expected.leaveOneOut, tolerance, 'leaveOneOut');
      }
    },
  );

  test('each package’s own figure is its own count over its own denominator', () => {
    const { studies } = pool({
      scale: 'rate',
      numerator: [0, 6],
      denominator: [40, 80],
      designEffect: [1, 2],
    });
    expect(studies.map(({ figure }) => figure)).toMatchObject([
      { estimate: 0, lower: 0 },
      { estimate: 6 / 80 },
    ]);
    for (const { figure } of studies) {
      if (figure.kind === 'estimated') expect(figure.upper).toBeGreaterThan(figure.estimate);
    }
  });

  test('law: a design effect of 4 widens an interval on the log scale twofold', () => {
    const width = (designEffect: number) => {
      const [one] = pool({
        ...{ scale: 'rate', numerator: [64, 64], denominator: [100, 100] },
        designEffect: [designEffect, 1],
      }).studies;
      return one?.figure.kind === 'estimated' ? Math.log(one.figure.upper / one.figure.lower) : 0;
    };
    expect(width(4)).toBeCloseTo(2 * width(1), 12);
  });

  test('one package alone is not pooled, and says so', () => {
    const pooled = pool({ scale: 'share', numerator: [8], denominator: [10], designEffect: [1] });
    expect(pooled.random).toMatchObject({
      kind: 'not-estimable',
      reason: expect.stringMatching(/One study/),
    });
    expect(pooled.leaveOneOut).toEqual([]);
  });

  test('the order of packages changes nothing but their order', () => {
    const forward = pool({
      scale: 'share',
      numerator: [8, 30, 11],
      denominator: [10, 44, 30],
      designEffect: [1, 2, 1],
    });
    const back = pool({
      scale: 'share',
      numerator: [11, 30, 8],
      denominator: [30, 44, 10],
      designEffect: [1, 2, 1],
    });
    if (forward.random.kind !== 'estimated' || back.random.kind !== 'estimated')
      throw new Error('no mean');
    expect(back.random.estimate).toBeCloseTo(forward.random.estimate, 12);
    expect(back.random.lower).toBeCloseTo(forward.random.lower, 10);
  });
});
