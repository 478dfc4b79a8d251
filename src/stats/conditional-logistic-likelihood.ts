import type { MatchedSet } from './conditional-logistic-sets.ts';

/** A log-likelihood with its slope and its curvature (observed information) in the coefficients. */
export interface Likelihood {
  readonly logLikelihood: number;
  readonly gradient: readonly number[];
  readonly information: readonly (readonly number[])[];
}

/** Mean and covariance of covariate sums, with the log of the total weight they were taken over. */
interface Moments {
  logTotal: number;
  readonly mean: number[];
  readonly covariance: number[][];
}

/** Linear predictors of a set's members. */
export function linearPredictors(set: MatchedSet, coefficients: readonly number[]): number[] {
  return set.covariates.map((row) => dot(row, coefficients));
}

/** Sum of the cases' covariates. */
export function caseTotals({ covariates, isCase }: MatchedSet): number[] {
  const totals = (covariates[0] ?? []).map(() => 0);
  for (const [i, row] of covariates.entries())
    if (isCase[i]) for (const [j, value] of row.entries()) totals[j] = (totals[j] ?? 0) + value;
  return totals;
}

/**
 * The exact conditional likelihood of one set: the chance that just these members are the cases,
 * among all choices of as many members, each weighed by exp of its sum of linear predictors.
 *
 * The choices are not listed. Member by member, the choices of k either leave the new member out or
 * add it to a choice of k − 1; the moments of both kinds are mixed in proportion to their weight.
 * Kept as means and covariances with the logarithm of the weight, nothing overflows and nothing
 * cancels, and the work is cases × non-cases.
 * Source: Gail, Lubin & Rubinstein 1981, Biometrika 68:703 (the recursion on weights).
 */
export function exactLikelihood(set: MatchedSet, coefficients: readonly number[]): Likelihood {
  const { covariates, cases } = set;
  const predictors = linearPredictors(set, coefficients);
  const width = coefficients.length;
  const choices = Array.from({ length: cases + 1 }, (_, k) => emptyMoments(width, k === 0));
  for (const [i, row] of covariates.entries()) {
    const left = covariates.length - 1 - i;
    for (let k = Math.min(i + 1, cases); k >= Math.max(1, cases - left); k--)
      mixIn(choices[k] as Moments, choices[k - 1] as Moments, {
        row,
        predictor: predictors[i] as number,
      });
  }
  const { logTotal, mean, covariance } = choices[cases] as Moments;
  const totals = caseTotals(set);
  return {
    logLikelihood: dot(totals, coefficients) - logTotal,
    gradient: totals.map((value, j) => value - (mean[j] as number)),
    information: covariance,
  };
}

function emptyMoments(width: number, isStart: boolean): Moments {
  return {
    logTotal: isStart ? 0 : Number.NEGATIVE_INFINITY,
    mean: new Array<number>(width).fill(0),
    covariance: Array.from({ length: width }, () => new Array<number>(width).fill(0)),
  };
}

/** Choices of k without the new member, joined by choices of k − 1 with it. */
function mixIn(
  without: Moments,
  smaller: Moments,
  member: { readonly row: readonly number[]; readonly predictor: number },
): void {
  const logWith = smaller.logTotal + member.predictor;
  const share = 1 / (1 + Math.exp(without.logTotal - logWith));
  const gap = member.row.map(
    (value, j) => value + (smaller.mean[j] as number) - (without.mean[j] as number),
  );
  for (const [j, line] of without.covariance.entries()) {
    for (let l = 0; l < line.length; l++)
      line[l] =
        (1 - share) * (line[l] as number) +
        share * (smaller.covariance[j]?.[l] as number) +
        share * (1 - share) * ((gap[j] as number) * (gap[l] as number));
    without.mean[j] = (without.mean[j] as number) + share * (gap[j] as number);
  }
  const [low, high] = [without.logTotal, logWith].sort((a, b) => a - b) as [number, number];
  without.logTotal = high + Math.log1p(Math.exp(low - high));
}

/** Σ aᵢbᵢ. */
export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, j) => sum + value * (b[j] as number), 0);
}
