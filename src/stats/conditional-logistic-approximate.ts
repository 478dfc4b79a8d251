import {
  caseTotals,
  dot,
  type Likelihood,
  linearPredictors,
} from './conditional-logistic-likelihood.ts';
import type { MatchedSet } from './conditional-logistic-sets.ts';

/**
 * Efron's approximation to the conditional likelihood of one set: as if its cases had happened one
 * after the other, each earlier one counted in part. Close where cases are few among many; with
 * several cases in a small set it draws coefficients toward 0. A set of cases only, which holds no
 * comparison, still has a say here, because the order in which they are thought to come has one.
 * Source: Efron 1977, J Am Stat Assoc 72:557.
 */
export function efronLikelihood(set: MatchedSet, coefficients: readonly number[]): Likelihood {
  return oneAfterAnother(set, coefficients, (earlier) => earlier / set.cases);
}

/**
 * Breslow's approximation: as Efron's, with every earlier case still counted in full; farther off.
 * Source: Breslow 1974, Biometrics 30:89.
 */
export function breslowLikelihood(set: MatchedSet, coefficients: readonly number[]): Likelihood {
  return oneAfterAnother(set, coefficients, () => 0);
}

/** `gone`: the share of each case that no longer counts after so many earlier ones. */
function oneAfterAnother(
  set: MatchedSet,
  coefficients: readonly number[],
  gone: (earlier: number) => number,
): Likelihood {
  const predictors = linearPredictors(set, coefficients);
  const largest = Math.max(...predictors);
  const totals = caseTotals(set);
  const gradient = [...totals];
  const information = totals.map(() => totals.map(() => 0));
  let logLikelihood = dot(totals, coefficients);
  for (let earlier = 0; earlier < set.cases; earlier++) {
    const weights = predictors.map(
      (predictor, i) => Math.exp(predictor - largest) * (set.isCase[i] ? 1 - gone(earlier) : 1),
    );
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const shares = weights.map((weight) => weight / total);
    logLikelihood -= largest + Math.log(total);
    const mean = totals.map((_, j) => dot(shares, columnOf(set, j)));
    for (const [j, line] of information.entries()) {
      gradient[j] = (gradient[j] as number) - (mean[j] as number);
      for (const l of line.keys())
        line[l] = (line[l] as number) + covarianceOf(set, { shares, mean, j, l });
    }
  }
  return { logLikelihood, gradient, information };
}

const columnOf = ({ covariates }: MatchedSet, j: number): number[] =>
  covariates.map((row) => row[j] as number);

function covarianceOf(
  { covariates }: MatchedSet,
  at: { shares: readonly number[]; mean: readonly number[]; j: number; l: number },
): number {
  const { shares, mean, j, l } = at;
  return covariates.reduce((sum, row, i) => {
    const product =
      ((row[j] as number) - (mean[j] as number)) * ((row[l] as number) - (mean[l] as number));
    return sum + (shares[i] as number) * product;
  }, 0);
}
