import {
  conditionalWeights,
  type WeightQuestion,
  type Weights,
  withoutTails,
} from './conditional-weights.ts';
import type { Stratum } from './mantel-haenszel-strata.ts';

/** More products than this (about a second of work) are not taken on. */
const MOST_PRODUCTS = 1e9;

/** Totals of events in the first group and how likely each is, at one odds ratio. */
export interface ConditionalDistribution extends Weights {
  readonly logOddsRatio: number;
  readonly logWeights: Float64Array;
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
  const parts = strata.map((stratum) => conditionalWeights(stratum, question));
  let joint: Weights = { first: 0, weights: Float64Array.of(1) };
  let products = 0;
  for (const part of parts) {
    products += joint.weights.length * part.weights.length;
    if (products > MOST_PRODUCTS) return null;
    joint = withoutTails(convolved(joint, part), question.floor);
  }
  return {
    ...joint,
    logOddsRatio: Math.log(question.oddsRatio),
    logWeights: joint.weights.map(Math.log),
  };
}

/** Indexed loops, because these are by far the most steps of any exact method. */
function convolved(a: Weights, b: Weights): Weights {
  const [left, right] = [a.weights, b.weights];
  const weights = new Float64Array(left.length + right.length - 1);
  for (let i = 0; i < left.length; i++) {
    const weight = left[i] as number;
    for (let j = 0; j < right.length; j++)
      weights[i + j] = (weights[i + j] as number) + weight * (right[j] as number);
  }
  const largest = weights.reduce((top, weight) => Math.max(top, weight), 0);
  return { first: a.first + b.first, weights: weights.map((weight) => weight / largest) };
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
  { first, logWeights, logOddsRatio }: ConditionalDistribution,
  observed: number,
  movedLogOddsRatio: number,
): Standing {
  const tilt = movedLogOddsRatio - logOddsRatio;
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < logWeights.length; i++)
    largest = Math.max(largest, (logWeights[i] as number) + (first + i - observed) * tilt);
  let [all, atLeast, atMost, sum, squares] = [0, 0, 0, 0, 0];
  for (let i = 0; i < logWeights.length; i++) {
    const distance = first + i - observed;
    const weight = Math.exp((logWeights[i] as number) + distance * tilt - largest);
    all += weight;
    if (distance >= 0) atLeast += weight;
    if (distance <= 0) atMost += weight;
    sum += weight * distance;
    squares += weight * distance * distance;
  }
  const mean = sum / all;
  return {
    mean: observed + mean,
    standardDeviation: Math.sqrt(Math.max(0, squares / all - mean * mean)),
    atLeast: atLeast / all,
    atMost: atMost / all,
  };
}
