import { describe, expect, test } from 'vitest';
import { negativeBinomialLogPmf } from '../../src/stats/count-distribution-negative-binomial.ts';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import type { FittedModel } from '../../src/stats/glm-model.ts';
import {
  binomialResidual,
  countResidual,
  quantileResiduals,
} from '../../src/stats/quantile-residuals.ts';
import { Random } from '../../src/stats/random.ts';
import { expectClose, loadCheckValue } from '../helpers/reference.ts';

interface Point {
  readonly family: 'poisson' | 'negbin2';
  readonly y: number;
  readonly mu: number;
  readonly size?: number;
  readonly u: number;
}

test('single residuals, Poisson and NB2 (formula of Dunn & Smyth 1996, computed in R)', () => {
  const { inputs, expected, tolerance } = loadCheckValue<{ cases: Point[] }>('rqr-points');
  const residuals = inputs.cases.map(({ y, mu, size = Number.POSITIVE_INFINITY, u }) =>
    countResidual(y, { mean: mu, size }, u),
  );
  expectClose({ residuals }, expected, tolerance);
});

test('probability of a count under NB2 (R dnbinom)', () => {
  const { inputs, expected, tolerance } = loadCheckValue<{ y: number; mu: number; size: number }>(
    'negbin2-logpmf',
  );
  const logpmf = negativeBinomialLogPmf(inputs.y, { mean: inputs.mu, size: inputs.size });
  expectClose({ logpmf }, expected, tolerance);
});

// R 4.2.2: qnorm(pbinom(y - 1, n, p) + u * dbinom(y, n, p)), upper tail where it is the smaller.
test.each([
  [3, 10, 0.4, 0.25, -0.768694095],
  [0, 5, 0.1, 0.5, -0.5381260922],
  [5, 5, 0.1, 0.5, 4.417173413],
  [1, 1, 0.99, 0.3, -0.5043719862],
])('binomial: %i of %i at p = %d, u = %d', (y, trials, p, u, expected) => {
  expect(binomialResidual(y, { trials, p, rest: 1 - p }, u)).toBeCloseTo(expected, 8);
});

describe('residuals of whole models', () => {
  const rows = 4000;
  const random = new Random(31);
  const design = designMatrix([], {}, rows);

  test('are standard normal where the model holds, whatever the counts', () => {
    const y = Array.from({ length: rows }, () => random.poisson(0.3));
    const fit = fitGlm({ design, y }, { name: 'poisson' }) as FittedModel;
    const residuals = quantileResiduals(fit, new Random(7)) as Float64Array;
    const mean = residuals.reduce((sum, r) => sum + r, 0) / rows;
    const variance = residuals.reduce((sum, r) => sum + (r - mean) ** 2, 0) / (rows - 1);
    // Four Monte-Carlo standard errors: 4/√4000 and 4·√(2/4000).
    expect(Math.abs(mean)).toBeLessThan(0.064);
    expect(Math.abs(variance - 1)).toBeLessThan(0.09);
    expect(quantileResiduals(fit, new Random(7))).toEqual(residuals);
  });

  test('mirror when successes and failures change places', () => {
    const trials = 7;
    for (const y of [0, 2, 7])
      expect(binomialResidual(y, { trials, p: 0.2, rest: 0.8 }, 0.3)).toBeCloseTo(
        -binomialResidual(trials - y, { trials, p: 0.8, rest: 0.2 }, 0.7),
        12,
      );
  });

  test('stay finite far out, and are refused without a distribution', () => {
    expect(Number.isFinite(countResidual(5000, { mean: 1, size: 1e9 }, 0.5))).toBe(true);
    expect(
      Number.isFinite(countResidual(0, { mean: 1e6, size: Number.POSITIVE_INFINITY }, 0.5)),
    ).toBe(true);
    expect(
      Number.isFinite(binomialResidual(900, { trials: 1000, p: 1e-12, rest: 1 - 1e-12 }, 0.5)),
    ).toBe(true);
    const y = Array.from({ length: rows }, (_, i) => i % 3);
    const quasi = fitGlm({ design, y }, { name: 'quasipoisson' }) as FittedModel;
    expect(quantileResiduals(quasi, new Random(1))).toMatchObject({ kind: 'not-estimable' });
  });
});
