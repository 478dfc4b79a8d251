import { inverse, Matrix, solve } from 'ml-matrix';
import type { Estimated } from '../base/estimate.ts';
import type { Tested } from '../base/test-outcome.ts';
import { breslowLikelihood, efronLikelihood } from './conditional-logistic-approximate.ts';
import { highestPoint, matrixOf, sumOverSets, whyTied } from './conditional-logistic-fit.ts';
import { dot, exactLikelihood, type Likelihood } from './conditional-logistic-likelihood.ts';
import {
  informs,
  type MatchedCount,
  type MatchedRows,
  type MatchedSet,
  matchedCount,
  matchedSets,
} from './conditional-logistic-sets.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import type { Level } from './interval-level.ts';
import { type LogError, logNormalRatio } from './ratio-of-log-normal.ts';

/** How several cases in one set are handled. */
const LIKELIHOODS = { exact: exactLikelihood, efron: efronLikelihood, breslow: breslowLikelihood };

export interface ConditionalLogisticOptions extends Level {
  /** `exact` is the conditional likelihood itself; the others are known approximations to it. */
  readonly ties: keyof typeof LIKELIHOODS;
}

/** A fitted conditional logistic regression; arrays follow `names`. */
export interface ConditionalLogisticFit extends MatchedCount {
  readonly kind: 'fitted';
  readonly method: string;
  readonly names: readonly string[];
  /** Log odds ratios within a set. */
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  /** Odds ratios with normal intervals on the log scale. */
  readonly oddsRatios: readonly (Estimated & LogError)[];
  readonly logLikelihood: number;
  readonly logLikelihoodAtZero: number;
  /** Likelihood ratio and score test that all coefficients are 0. */
  readonly likelihoodRatio: Tested;
  readonly score: Tested;
}

/** No fit, and why, in a sentence. */
export interface NoConditionalLogistic extends MatchedCount {
  readonly kind: 'not-estimable';
  readonly method: string;
  readonly reason: string;
}

/** Exact sums over more products than this (some seconds in all) are not taken on. */
const MOST_PRODUCTS = 5e6;

/**
 * Conditional logistic regression: what makes a row a case, compared within its own set (trip), so
 * that whatever a set's rows share drops out. Sets without both cases and non-cases are counted as
 * left out. Not estimable when no set is left, when a covariate never differs within a set or is
 * tied to the others, or when cases and non-cases never overlap, so that a coefficient has no end.
 * Source: Breslow & Day 1980, IARC Sci Publ 32, ch. 7; Newton's method from 0.
 */
export function conditionalLogistic(
  rows: MatchedRows,
  { level, ties }: ConditionalLogisticOptions,
): ConditionalLogisticFit | NoConditionalLogistic {
  const { names } = rows;
  const method = `conditional-logistic-${ties}`;
  const sets = matchedSets(rows);
  const count = matchedCount(sets);
  const used = sets.filter((set) => (ties === 'exact' ? informs(set) : set.cases > 0));
  const refuse = (reason: string) => ({ kind: 'not-estimable' as const, method, reason, ...count });
  if (count.informativeSets === 0)
    return refuse('No set has both cases and non-cases, so nothing can be compared.');
  if (names.length === 0) return refuse('There is no covariate to fit.');
  if (ties === 'exact' && productsOf(used, names.length) > MOST_PRODUCTS)
    return refuse('The sets are too large for the exact sums; the Efron approximation serves.');

  const likelihood = (beta: readonly number[]) => sumOverSets(used, beta, LIKELIHOODS[ties]);
  const atZero = likelihood(names.map(() => 0));
  const tied = whyTied(atZero.information, names);
  if (tied !== null) return refuse(tied);
  const coefficients = highestPoint(likelihood, atZero);
  if (coefficients === null)
    return refuse(
      'Along some covariate cases and non-cases of a set never overlap, so its odds ratio has no end.',
    );
  const top = likelihood(coefficients);
  return { ...summary({ coefficients, top, atZero }, { names, level, method, count }), ...count };
}

/** A likelihood at its highest point and at coefficients of 0. */
interface Peak {
  readonly coefficients: readonly number[];
  readonly top: Likelihood;
  readonly atZero: Likelihood;
}

interface Setting extends Level {
  readonly names: readonly string[];
  readonly method: string;
  readonly count: MatchedCount;
}

/**
 * Covariance is the inverse of the observed information; the two tests compare the highest point
 * with 0 by its height and by the slope at 0.
 */
function summary(
  { coefficients, top, atZero }: Peak,
  { names, level, method, count }: Setting,
): Omit<ConditionalLogisticFit, keyof MatchedCount> {
  const df = names.length;
  const covariance = inverse(matrixOf(top.information)).to2DArray();
  const basis = { level, method, n: count.informativeRows, exposure: null, notes: [] };
  const gain = Math.max(0, 2 * (top.logLikelihood - atZero.logLikelihood));
  const gradient = Matrix.columnVector([...atZero.gradient]);
  const score = dot(solve(matrixOf(atZero.information), gradient).to1DArray(), atZero.gradient);
  return {
    kind: 'fitted',
    method,
    names,
    coefficients,
    standardErrors: covariance.map((line, j) => Math.sqrt(line[j] as number)),
    covariance,
    oddsRatios: coefficients.map((coefficient, j) => {
      const logVariance = covariance[j]?.[j] as number;
      return logNormalRatio({ estimate: Math.exp(coefficient), logVariance }, basis);
    }),
    logLikelihood: top.logLikelihood,
    logLikelihoodAtZero: atZero.logLikelihood,
    likelihoodRatio: chiSquareTested({ method: 'likelihood-ratio', statistic: gain, df }),
    score: chiSquareTested({ method: 'score', statistic: score, df }),
  };
}

/** Products an exact likelihood takes: cases × non-cases of every set, for each pair of covariates. */
function productsOf(sets: readonly MatchedSet[], width: number): number {
  return (
    sets.reduce((sum, { cases, isCase }) => sum + cases * (isCase.length - cases), 0) * width ** 2
  );
}
