import { type Refusal, refuse } from '../base/estimate.ts';
import { type Contest, contestPower, type PlannedTest, type Power } from './power-plan.ts';

/** Two rates thought to be true, events per unit of exposure, 0 or more. */
export interface TwoRates {
  readonly a: number;
  readonly b: number;
}

/**
 * The power of the comparison of two Poisson rates (score test of their difference, which is the
 * test of their ratio too) on `exposureA` and `exposureB`, in the unit of the rates, e.g.
 * line-hours; exposure in trips is first divided by the design effect (the dispersion of the
 * events). Good where a few events or more are expected in each group.
 * Not estimable with no exposure in a group or where both rates are 0.
 * Source: the rule for proportions of Fleiss 1981, ch. 3, with Poisson variances (Gu, Ng, Tang &
 * Schucany 2008, Biometrical J. 50:283, compare it with others).
 */
export function powerTwoRates(
  rates: TwoRates,
  sizes: { readonly exposureA: number; readonly exposureB: number },
  test: PlannedTest,
): Power | Refusal {
  const { exposureA, exposureB } = sizes;
  if (!(exposureA > 0 && exposureB > 0)) return refuse('One of the two groups has no exposure.');
  const contest = rateContest(rates, exposureB / exposureA);
  if (contest.nullSpread === 0) return refuse('Both rates are 0, so there is nothing to compare.');
  return contestPower(contest, exposureA, test);
}

/**
 * The spreads of a difference of rates per unit of exposure of A, `allocation` of B to each of A.
 * Under "no difference" both groups share the mean of the two rates, weighted by exposure.
 */
export function rateContest({ a, b }: TwoRates, allocation: number): Contest {
  for (const rate of [a, b])
    if (!(rate >= 0 && rate < Number.POSITIVE_INFINITY))
      throw new RangeError(`A rate is 0 or more, not ${rate}.`);
  if (!(allocation > 0)) throw new RangeError(`Group B needs a share above 0, not ${allocation}.`);
  const pooled = (a + allocation * b) / (1 + allocation);
  return {
    difference: a - b,
    nullSpread: Math.sqrt(pooled * (1 + 1 / allocation)),
    trueSpread: Math.sqrt(a + b / allocation),
  };
}
