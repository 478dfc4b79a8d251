import { type Refusal, refuse } from '../base/estimate.ts';
import { type Contest, contestPower, type PlannedTest, type Power } from './power-plan.ts';

/** Two proportions thought to be true, 0 to 1. */
export interface TwoProportions {
  readonly a: number;
  readonly b: number;
}

/**
 * The power of the comparison of two proportions (score test without continuity correction, the
 * same as a chi-square test) on `unitsA` and `unitsB` independent units; units in trips are first
 * divided by their design effect.
 * Not estimable with no units in a group, or where both proportions are 0 or both 1: then every
 * log looks the same and no test can find anything.
 * Source: Fleiss 1981, Statistical Methods for Rates and Proportions, ch. 3.
 */
export function powerTwoProportions(
  proportions: TwoProportions,
  sizes: { readonly unitsA: number; readonly unitsB: number },
  test: PlannedTest,
): Power | Refusal {
  const { unitsA, unitsB } = sizes;
  if (!(unitsA > 0 && unitsB > 0)) return refuse('One of the two groups has no units.');
  const contest = proportionContest(proportions, unitsB / unitsA);
  if (contest.nullSpread === 0)
    return refuse('Both proportions are 0, or both are 1, so there is nothing to compare.');
  return contestPower(contest, unitsA, test);
}

/**
 * The spreads of a difference of proportions per unit of A, `allocation` units of B to each of A.
 * Under "no difference" both groups share the mean of the two proportions, weighted by size.
 */
export function proportionContest({ a, b }: TwoProportions, allocation: number): Contest {
  for (const p of [a, b])
    if (!(p >= 0 && p <= 1))
      throw new RangeError(`A proportion lies between 0 and 1, not at ${p}.`);
  if (!(allocation > 0)) throw new RangeError(`Group B needs a share above 0, not ${allocation}.`);
  const pooled = (a + allocation * b) / (1 + allocation);
  return {
    difference: a - b,
    nullSpread: Math.sqrt(pooled * (1 - pooled) * (1 + 1 / allocation)),
    trueSpread: Math.sqrt(a * (1 - a) + (b * (1 - b)) / allocation),
  };
}
