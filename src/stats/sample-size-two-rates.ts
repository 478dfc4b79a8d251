import { type Refusal, refuse } from '../base/estimate.ts';
import { contestUnits, type PlannedComparison } from './power-plan.ts';
import { rateContest, type TwoRates } from './power-two-rates.ts';
import { type SampleSize, sampleSize } from './sample-size.ts';

/**
 * Exposure (line-hours, say, in the unit of the rates) that each group needs so that the difference
 * between two Poisson rates is found with the planned power; times a rate it is the events to
 * expect. Events that come in trips: multiply by the design effect, see `clusterSize`.
 * @param plan `allocation`: B's exposure for each unit of A's, as the log itself has it.
 * Not estimable where the rates are equal: no exposure shows a difference of nothing.
 * Source: as `powerTwoRates`.
 */
export function sampleSizeTwoRates(rates: TwoRates, plan: PlannedComparison): SampleSize | Refusal {
  if (rates.a === rates.b)
    return refuse('The two are equal, and no amount of data shows a difference of nothing.');
  return sampleSize(contestUnits(rateContest(rates, plan.allocation), plan), plan.allocation);
}
