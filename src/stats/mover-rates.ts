import { type Estimate, notEstimable } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import type { Level } from './interval-level.ts';
import { garwood, rateJeffreys, rateScore } from './interval-rate.ts';
import { jointBasis, moverDifference } from './mover-difference.ts';
import { moverRatio } from './mover-ratio.ts';

/** The interval of the single rates that is carried into their comparison. */
const RATE_LIMITS = { garwood, score: rateScore, jeffreys: rateJeffreys };

export interface RateComparison extends Level {
  /** Exact (`garwood`), Rao's score, or Jeffreys' limits, the last with 0 below no events. */
  readonly limits: keyof typeof RATE_LIMITS;
}

/**
 * The difference of two independent Poisson rates, in events per unit of exposure, from the limits
 * of each. A group without exposure: not estimable.
 * Source: Zou & Donner 2008, Stat Med 27:1693.
 */
export function moverRateDifference(rates: TwoRates, how: RateComparison): Estimate {
  const { first, second } = singleRates(rates, how);
  return { ...moverDifference(first, second), method: `mover-difference-${how.limits}` };
}

/**
 * The ratio of two independent Poisson rates, first over second, from the limits of each. No events
 * in the second group: an infinite ratio with its lower limit. No events at all, or a group
 * without exposure: not estimable; with score limits also where one group has no events.
 * Source: Donner & Zou 2012, Stat Methods Med Res 21:347.
 */
export function moverRateRatio(rates: TwoRates, how: RateComparison): Estimate {
  const { first, second } = singleRates(rates, how);
  const method = `mover-ratio-${how.limits}`;
  if (how.limits === 'score' && (rates.events1 === 0 || rates.events2 === 0))
    return notEstimable(
      'Score limits make a ratio only where both groups have events; Garwood limits also serve without.',
      jointBasis(first, second, { method, correlation: 0 }),
    );
  return { ...moverRatio(first, second), method };
}

function singleRates(
  { events1, exposure1, events2, exposure2 }: TwoRates,
  { level, limits }: RateComparison,
): { readonly first: Estimate; readonly second: Estimate } {
  const interval = RATE_LIMITS[limits];
  return {
    first: interval(events1, exposure1, { level }),
    second: interval(events2, exposure2, { level }),
  };
}
