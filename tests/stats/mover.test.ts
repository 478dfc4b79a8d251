import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { estimated, notEstimable } from '../../src/base/estimate.ts';
import { ratioTrip } from '../../src/stats/clustered-ratio-trip.ts';
import { wilsonTrip } from '../../src/stats/clustered-wilson-trip.ts';
import { moverCorrelation } from '../../src/stats/mover-correlation.ts';
import { moverDifference, squareAndAdd } from '../../src/stats/mover-difference.ts';
import { moverLogRatio } from '../../src/stats/mover-log-ratio.ts';
import type { ClusterPair } from '../../src/stats/same-cluster-pairs.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const basis = { level: 0.95, method: 'test', n: 10, exposure: null, notes: [] };
const figure = (lower: number, estimate: number, upper: number, level = 0.95) =>
  estimated({ ...basis, level, estimate, lower, upper });

interface LensInputs {
  readonly clusters: ClusterPair[];
  readonly kind: 'proportion' | 'rate';
  readonly level: number;
  readonly borrowedCorrelation?: number;
}

/** The two clustered figures of a case: x1 of n1 and x2 of n2 over its trips. */
function levelsOf({ clusters, kind, level, borrowedCorrelation = 0 }: LensInputs) {
  const sides = [
    clusters.map(({ x1, n1 }) => [x1, n1] as const),
    clusters.map(({ x2, n2 }) => [x2, n2] as const),
  ];
  const [first, second] = sides.map((side) =>
    kind === 'rate'
      ? ratioTrip(
          side.map(([events, exposure]) => ({ events, exposure })),
          { level },
        )
      : wilsonTrip(
          side.map(([successes, units]) => ({ successes, units })),
          { level, borrowedCorrelation },
        ),
  );
  if (first === undefined || second === undefined) expect.fail('there are two levels');
  return { first, second };
}

// R, tests/reference/21-lenses.R: the clustered limits of each level, the correlation of the trips'
// residuals and the square-and-add, in formulas of its own.
test.each(
  loadReference<LensInputs>('21-lenses', 'as-logged').map((entry) => [entry.id, entry] as const),
)('against R: %s', (_, { inputs, expected, tolerance }) => {
  const { first, second } = levelsOf(inputs);
  const correlation = moverCorrelation(inputs.clusters);
  const difference = moverDifference(first, second, { correlation });
  const logRatio = moverLogRatio(first, second, { correlation });
  expectClose({ first, second, correlation, difference, logRatio }, expected, tolerance);
});

describe('laws', () => {
  const sorted = fc
    .tuple(...[1, 2, 3].map(() => fc.double({ min: 0.01, max: 5, noNaN: true })))
    .map((values) => values.toSorted((a, b) => a - b) as [number, number, number]);
  const correlation = fc.double({ min: -1, max: 1, noNaN: true });

  test('swapping the two mirrors the difference and inverts the ratio', () => {
    fc.assert(
      fc.property(sorted, sorted, correlation, (a, b, rho) => {
        const [there, back] = [
          moverDifference(figure(...a), figure(...b), { correlation: rho }),
          moverDifference(figure(...b), figure(...a), { correlation: rho }),
        ];
        const [ratio, inverse] = [
          moverLogRatio(figure(...a), figure(...b), { correlation: rho }),
          moverLogRatio(figure(...b), figure(...a), { correlation: rho }),
        ];
        if (there.kind !== 'estimated' || back.kind !== 'estimated') expect.fail();
        if (ratio.kind !== 'estimated' || inverse.kind !== 'estimated') expect.fail();
        expect(back.upper).toBeCloseTo(-there.lower, 12);
        expect(back.lower).toBeCloseTo(-there.upper, 12);
        expect(inverse.upper * ratio.lower).toBeCloseTo(1, 9);
        expect(inverse.lower * ratio.upper).toBeCloseTo(1, 9);
      }),
    );
  });

  test('the more two levels move together, the narrower their difference', () => {
    fc.assert(
      fc.property(sorted, sorted, (a, b) => {
        const widths = [-1, -0.4, 0, 0.7, 1].map((rho) => {
          const { lower, upper } = squareAndAdd(figure(...a), figure(...b), rho);
          return upper - lower;
        });
        for (const [at, width] of widths.slice(1).entries())
          expect(width).toBeLessThanOrEqual((widths[at] as number) + 1e-12);
      }),
    );
  });

  test('at correlation 1 the distances subtract, at −1 they add', () => {
    const [a, b] = [figure(1, 2, 4), figure(0.5, 1, 1.5)];
    expect(squareAndAdd(a, b, 1)).toEqual({ estimate: 1, lower: 0.5, upper: 2.5 });
    expect(squareAndAdd(a, b, -1)).toEqual({ estimate: 1, lower: -0.5, upper: 3.5 });
  });

  test('a figure known exactly shifts the other', () => {
    expect(squareAndAdd(figure(1, 2, 4), figure(3, 3, 3))).toEqual({
      estimate: -1,
      lower: -2,
      upper: 1,
    });
  });
});

describe('ends and refusals', () => {
  test('open limits stay open, whatever the correlation', () => {
    const open = figure(0, 2, Infinity);
    for (const correlation of [-1, 0, 0.5, 1]) {
      expect(moverDifference(open, figure(1, 2, 3), { correlation })).toMatchObject({
        upper: Infinity,
      });
      expect(moverDifference(figure(1, 2, 3), open, { correlation })).toMatchObject({
        lower: -Infinity,
      });
      expect(moverLogRatio(figure(0, 1, 2), figure(1, 2, 3), { correlation })).toMatchObject({
        lower: 0,
      });
      expect(moverLogRatio(figure(1, 2, 3), figure(0, 1, 2), { correlation })).toMatchObject({
        upper: Infinity,
      });
    }
  });

  test('what one level cannot say, the comparison cannot either', () => {
    const silent = notEstimable('Nothing was counted.', basis);
    for (const compare of [moverDifference, moverLogRatio]) {
      expect(compare(silent, figure(1, 2, 3))).toMatchObject({ reason: 'Nothing was counted.' });
      expect(compare(figure(1, 2, 3), silent)).toMatchObject({ reason: 'Nothing was counted.' });
    }
    expect(moverLogRatio(figure(0, 0, 1), figure(1, 2, 3))).toMatchObject({
      reason: 'One level has no events, so no ratio can be formed; the difference can.',
    });
  });

  test('mixed confidence levels and impossible correlations are refused in words', () => {
    const [a, b] = [figure(1, 2, 3), figure(1, 2, 3, 0.9)];
    expect(() => moverDifference(a, b)).toThrow('Limits at 0.95 and at 0.9 cannot be joined.');
    expect(() => moverDifference(a, a, { correlation: 1.01 })).toThrow('not at 1.01');
    expect(() => moverLogRatio(a, a, { correlation: Number.NaN })).toThrow('not at NaN');
  });

  test('levels on trips of their own, or without any variation, are not correlated', () => {
    const apart = [
      { x1: 1, n1: 4, x2: 0, n2: 0 },
      { x1: 3, n1: 4, x2: 0, n2: 0 },
      { x1: 0, n1: 0, x2: 2, n2: 5 },
    ];
    expect(moverCorrelation(apart)).toBe(0);
    const constant = [1, 2, 3].map((n) => ({ x1: n, n1: 3 * n, x2: n % 2, n2: 3 }));
    expect(moverCorrelation(constant)).toBe(0);
    expect(moverCorrelation([])).toBe(0);
  });
});
