import { type Refusal, refuse } from '../base/estimate.ts';
import {
  type CountDistribution,
  countCdf,
  countMean,
  countQuantile,
  countTail,
  expectedExcess,
} from './count-distribution.ts';

/** What one bait too few costs, and one left over, in one currency; each 0 or more. */
export interface BaitCosts {
  readonly shortCost: number;
  readonly leftCost: number;
}

/** What one load brings on average. */
export interface LoadOutcome {
  readonly load: number;
  /** P(use ≤ load): the chance that the load is enough. */
  readonly enoughProbability: number;
  readonly shortProbability: number;
  readonly expectedShort: number;
  readonly expectedLeft: number;
  readonly expectedUsed: number;
  readonly expectedCost: number;
  /** Share of the need that is met; null where nothing is needed. */
  readonly fillRate: number | null;
}

export interface BestLoad extends LoadOutcome {
  readonly kind: 'best';
  readonly criticalRatio: number;
}

/**
 * The chance of having enough at which one more bait costs as much as it saves:
 * short / (short + left), 0 to 1. NaN is never given: both costs 0 throw.
 * Source: Arrow, Harris & Marschak 1951, Econometrica 19:250.
 */
export function criticalRatio({ shortCost, leftCost }: BaitCosts): number {
  for (const cost of [shortCost, leftCost])
    if (!(cost >= 0 && Number.isFinite(cost)))
      throw new RangeError(`A cost per bait is 0 or more, not ${cost}.`);
  if (shortCost + leftCost === 0) throw new RangeError('Both costs per bait are 0.');
  return shortCost / (shortCost + leftCost);
}

/** What `load` baits (a whole number, 0 or more) bring on average against the use `law`. */
export function loadOutcome(law: CountDistribution, load: number, costs: BaitCosts): LoadOutcome {
  if (!(Number.isInteger(load) && load >= 0))
    throw new RangeError(`A load is a whole number of baits, 0 or more, not ${load}.`);
  const mean = countMean(law);
  const expectedShort = expectedExcess(law, load);
  const expectedUsed = mean - expectedShort;
  const expectedLeft = Math.max(0, load - expectedUsed);
  return {
    load,
    enoughProbability: countCdf(law, load),
    shortProbability: countTail(law, load),
    expectedShort,
    expectedLeft,
    expectedUsed,
    expectedCost: costs.shortCost * expectedShort + costs.leftCost * expectedLeft,
    fillRate: mean === 0 ? null : expectedUsed / mean,
  };
}

/**
 * The load that costs least on average: the smallest with P(use ≤ load) at or above the critical
 * ratio. A load of 0 is an answer. Not estimable where a bait left over costs nothing, since then
 * no load is too large, or where neither cost is above 0.
 * Source: Arrow, Harris & Marschak 1951.
 */
export function bestLoad(law: CountDistribution, costs: BaitCosts): BestLoad | Refusal {
  if (costs.shortCost === 0 && costs.leftCost === 0)
    return refuse('Neither a bait too few nor one left over costs anything.');
  const ratio = criticalRatio(costs);
  const load = countQuantile(law, ratio);
  if (load === Number.POSITIVE_INFINITY)
    return refuse('A bait left over costs nothing, so no load is too large.');
  return { kind: 'best', criticalRatio: ratio, ...loadOutcome(law, load, costs) };
}
