import { type Refusal, refuse } from '../base/estimate.ts';
import { type Contest, checkShare, contestPower, type PlannedComparison } from './power-plan.ts';
import { proportionContest } from './power-two-proportions.ts';
import { rateContest } from './power-two-rates.ts';
import { findRoot } from './root.ts';

/** The nearest values of group B that would be told apart from group A's. */
export interface DetectableDifference {
  readonly kind: 'planned';
  /** null: not even the highest possible value would be. */
  readonly above: number | null;
  /** null: not even 0 would be. */
  readonly below: number | null;
}

/**
 * The proportions of group B, above and below that of group A, that would just be found with the
 * planned power by what is in hand: `unitsA` independent units of A (units in trips divided by
 * their design effect) and `allocation` times as many of B.
 * Not estimable without units, or with a power not above the chance of a false alarm.
 * Source: Fleiss 1981, ch. 3, solved for the second proportion.
 */
export function detectableProportions(
  proportionA: number,
  unitsA: number,
  plan: PlannedComparison,
): DetectableDifference | Refusal {
  const contest = (b: number) => proportionContest({ a: proportionA, b }, plan.allocation);
  return detectable(contest, unitsA, { ...plan, from: proportionA, highest: 1 });
}

/**
 * The rates of group B, above and below that of group A, that would just be found with the planned
 * power on `exposureA` of A (divided by its design effect) and `allocation` times as much of B.
 * Not estimable without exposure, or with a power not above the chance of a false alarm.
 * Source: as `powerTwoRates`, solved for the second rate.
 */
export function detectableRates(
  rateA: number,
  exposureA: number,
  plan: PlannedComparison,
): DetectableDifference | Refusal {
  const contest = (b: number) => rateContest({ a: rateA, b }, plan.allocation);
  // One expected event is too little to be found by any test, so doubling from there ends.
  const enough = (b: number) => contestPower(contest(b), exposureA, plan).power >= plan.power;
  let highest = rateA + 1 / exposureA;
  while (exposureA > 0 && !enough(highest) && highest < 1e300) highest *= 2;
  return detectable(contest, exposureA, { ...plan, from: rateA, highest });
}

interface Range extends PlannedComparison {
  readonly from: number;
  readonly highest: number;
}

function detectable(
  contest: (b: number) => Contest,
  unitsA: number,
  range: Range,
): DetectableDifference | Refusal {
  checkShare('A power', range.power);
  if (!(unitsA > 0)) return refuse('One of the two groups is empty.');
  if (range.power <= range.alpha / range.sided)
    return refuse('A power no better than the chance of a false alarm needs no difference at all.');
  const edge = (end: number): number | null => {
    const short = (b: number): number => {
      if (b === range.from) return -1;
      return contestPower(contest(b), unitsA, range).power - range.power;
    };
    if (end === range.from || short(end) < 0) return null;
    return findRoot(short, { lower: range.from, upper: end });
  };
  return { kind: 'planned', above: edge(range.highest), below: edge(0) };
}
