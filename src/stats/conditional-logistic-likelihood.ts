import type { MatchedSet } from './conditional-logistic-sets.ts';

/** A log-likelihood with its slope and its curvature (observed information) in the coefficients. */
export interface Likelihood {
  readonly logLikelihood: number;
  readonly gradient: readonly number[];
  readonly information: readonly (readonly number[])[];
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
  const width = coefficients.length;
  const choices = emptyChoices(cases, width);
  for (const [i, predictor] of linearPredictors(set, coefficients).entries()) {
    const member = { row: covariates[i] as readonly number[], predictor };
    const left = covariates.length - 1 - i;
    for (let k = Math.min(i + 1, cases); k >= Math.max(1, cases - left); k--)
      mixIn(choices, k, member);
  }
  const totals = caseTotals(set);
  const mean = choices.mean.subarray(cases * width);
  const line = (j: number) => (cases * width + j) * width;
  return {
    logLikelihood: dot(totals, coefficients) - (choices.logTotal[cases] as number),
    gradient: totals.map((value, j) => value - (mean[j] as number)),
    information: totals.map((_, j) => [...choices.covariance.subarray(line(j), line(j) + width)]),
  };
}

/**
 * For each number of members k: the log of the total weight of all choices of k, and the mean and
 * covariance of their covariate sums, one block a k in flat arrays.
 */
interface Choices {
  readonly logTotal: Float64Array;
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  /** Scratch: how far the mean with the new member lies from the mean without, one a covariate. */
  readonly gap: Float64Array;
}

function emptyChoices(most: number, width: number): Choices {
  const logTotal = new Float64Array(most + 1).fill(Number.NEGATIVE_INFINITY);
  logTotal[0] = 0;
  return {
    logTotal,
    mean: new Float64Array((most + 1) * width),
    covariance: new Float64Array((most + 1) * width * width),
    gap: new Float64Array(width),
  };
}

interface Member {
  readonly row: readonly number[];
  readonly predictor: number;
}

/** Choices of k without the new member, joined by choices of k − 1 with it. */
function mixIn(choices: Choices, k: number, member: Member): void {
  const { logTotal, mean, covariance, gap } = choices;
  const width = gap.length;
  const without = logTotal[k] as number;
  const joined = (logTotal[k - 1] as number) + member.predictor;
  const ahead = joined - without;
  const share = 1 / (1 + Math.exp(-ahead));
  logTotal[k] = Math.max(without, joined) + Math.log1p(Math.exp(-Math.abs(ahead)));
  for (let j = 0; j < width; j++) {
    const at = k * width + j;
    const here = mean[at] as number;
    gap[j] = (member.row[j] as number) + (mean[at - width] as number) - here;
    mean[at] = here + share * (gap[j] as number);
  }
  for (let j = 0; j < width; j++)
    for (let l = 0; l < width; l++) {
      const at = (k * width + j) * width + l;
      const smaller = covariance[at - width * width] as number;
      const between = (1 - share) * ((gap[j] as number) * (gap[l] as number));
      covariance[at] = (1 - share) * (covariance[at] as number) + share * (smaller + between);
    }
}

/** Σ aᵢbᵢ. */
export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, j) => sum + value * (b[j] as number), 0);
}
