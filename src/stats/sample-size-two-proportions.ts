import { type Refusal, refuse } from '../base/estimate.ts';
import { contestUnits, type PlannedComparison } from './power-plan.ts';
import { proportionContest, type TwoProportions } from './power-two-proportions.ts';
import { type SampleSize, sampleSize } from './sample-size.ts';

/**
 * Independent units (bites, say) that each group needs so that the difference between two
 * proportions is found with the planned power. Units that come in trips are multiplied by a design
 * effect afterwards, see `clusterSize`.
 * @param plan `allocation`: B's units for each unit of A, so that a log's own proportion can be kept.
 * Not estimable where the proportions are equal: no number of units shows a difference of nothing.
 * Source: Fleiss 1981, Statistical Methods for Rates and Proportions, eq. 3.14 and 3.18; equal
 * groups give the formula that a chi-square test needs.
 */
export function sampleSizeTwoProportions(
  proportions: TwoProportions,
  plan: PlannedComparison,
): SampleSize | Refusal {
  if (proportions.a === proportions.b) return refuse(NO_DIFFERENCE);
  const contest = proportionContest(proportions, plan.allocation);
  return sampleSize(contestUnits(contest, plan), plan.allocation);
}

/**
 * The same for a test with continuity correction, as Fisher's exact test in effect has: always a
 * little more.
 * Source: Casagrande, Pike & Smith 1978, Appl. Stat. 27:176; Fleiss 1981, eq. 3.15 and 3.19.
 */
export function sampleSizeTwoProportionsCorrected(
  proportions: TwoProportions,
  plan: PlannedComparison,
): SampleSize | Refusal {
  const plain = sampleSizeTwoProportions(proportions, plan);
  if (plain.kind === 'not-estimable') return plain;
  const { allocation } = plan;
  const reach = plain.a.units * Math.abs(proportions.a - proportions.b);
  if (reach === 0) return plain;
  const factor = (1 + Math.sqrt(1 + (2 * (allocation + 1)) / (allocation * reach))) ** 2 / 4;
  return sampleSize(plain.a.units * factor, allocation);
}

const NO_DIFFERENCE = 'The two are equal, and no amount of data shows a difference of nothing.';
