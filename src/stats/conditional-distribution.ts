import { conditionalWeights, type WeightQuestion, type Weights } from './conditional-weights.ts';
import type { Stratum } from './mantel-haenszel-strata.ts';

/** More products than this (some seconds of work) are not taken on. */
const MOST_PRODUCTS = 3e8;

/** Totals of events in the first group and how likely each is, at one odds ratio. */
export interface ConditionalDistribution extends Weights {
  readonly logOddsRatio: number;
}

/**
 * How likely each total of events in the first group is over all strata, given every stratum's
 * margins and one common odds ratio (above 0): the strata's own distributions, convolved. Null when
 * the strata are too large for that; their Mantel–Haenszel interval is then as good.
 * Source: Gart 1970, Biometrika 57:471 (conditional inference for a common odds ratio); convolution
 * as in Mehta, Patel & Gray 1985 (from memory).
 */
export function conditionalDistribution(
  strata: readonly Stratum[],
  question: WeightQuestion,
): ConditionalDistribution | null {
  let joint: Weights = { first: 0, weights: Float64Array.of(1) };
  let products = 0;
  for (const stratum of strata) {
    const next = conditionalWeights(stratum, question);
    products += joint.weights.length * next.weights.length;
    if (products > MOST_PRODUCTS) return null;
    joint = convolved(joint, next);
  }
  return { ...joint, logOddsRatio: Math.log(question.oddsRatio) };
}

function convolved(a: Weights, b: Weights): Weights {
  const first = a.first + b.first;
  const weights = new Float64Array(a.weights.length + b.weights.length - 1);
  let largest = 0;
  for (const [i, left] of a.weights.entries())
    for (const [j, right] of b.weights.entries())
      weights[i + j] = (weights[i + j] as number) + left * right;
  for (const weight of weights) largest = Math.max(largest, weight);
  for (let i = 0; i < weights.length; i++) weights[i] = (weights[i] as number) / largest;
  return { first, weights };
}

/** Where a total stands in its distribution: all shares of 1. */
export interface Standing {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly atLeast: number;
  readonly atMost: number;
}

/**
 * Mean and tails of the distribution after its odds ratio is moved to another one. The weights are
 * tilted on the log scale, so that no power overflows.
 */
export function standingAt(
  { first, weights, logOddsRatio }: ConditionalDistribution,
  observed: number,
  movedLogOddsRatio: number,
): Standing {
  const tilt = movedLogOddsRatio - logOddsRatio;
  const logs = weights.map((weight, i) => Math.log(weight) + (first + i - observed) * tilt);
  const largest = logs.reduce((top, log) => Math.max(top, log), Number.NEGATIVE_INFINITY);
  let [all, atLeast, atMost, sum, squares] = [0, 0, 0, 0, 0];
  for (const [i, log] of logs.entries()) {
    const weight = Math.exp(log - largest);
    const distance = first + i - observed;
    all += weight;
    if (distance >= 0) atLeast += weight;
    if (distance <= 0) atMost += weight;
    sum += weight * distance;
    squares += weight * distance * distance;
  }
  const mean = sum / all;
  const standardDeviation = Math.sqrt(Math.max(0, squares / all - mean * mean));
  return {
    mean: observed + mean,
    standardDeviation,
    atLeast: atLeast / all,
    atMost: atMost / all,
  };
}
