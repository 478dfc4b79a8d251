import { bellMcCaffrey } from '../stats/clustered-ratio.ts';
import { gammaQuantile } from '../stats/distributions.ts';
import { tTestPower } from '../stats/power-t.ts';
import { findRoot } from '../stats/root.ts';
import type { Measure } from '../tally/measures.ts';
import type { PlanBasis } from './plan-basis.ts';
import { isProportion } from './proportion.ts';

/** What is to be told, and how surely. */
export interface PlanTarget {
  readonly measure: Measure;
  /** A difference of proportions (0.05), or a share of a rate (0.1: A is 1.1 times B). */
  readonly difference: number;
  /** Confidence level of the interval that will be read when the plan is done. */
  readonly level: number;
  /** Chance of telling the difference, e.g. 0.8. */
  readonly power: number;
}

/** Whether a number of trips does what is asked. */
export interface PowerPoint {
  readonly trips: number;
  /** Chance that the same-day interval leaves out "no difference", 0 to 1. */
  readonly power: number;
}

/** A plan that needs more trips than this is no plan. */
export const MOST_TRIPS = 10_000;

/**
 * The two rates a plan is reckoned with: the log's own, and one that differs by so much in the
 * direction that is harder to tell (a share towards a half; a rate upwards).
 */
export function plannedRates(
  { base }: PlanBasis,
  { measure, difference }: Pick<PlanTarget, 'measure' | 'difference'>,
): readonly [number, number] {
  const own = base.estimate;
  if (!isProportion(measure)) return [own * (1 + difference), own];
  return [own < 0.5 ? own + difference : own - difference, own];
}

/** The largest difference there is room for on the harder side; Infinity for a rate. */
export function mostDifference({ base }: PlanBasis, measure: Measure): number {
  if (!isProportion(measure)) return Number.POSITIVE_INFINITY;
  return Math.max(base.estimate, 1 - base.estimate);
}

/**
 * The chance that so many trips of the plan tell the difference: t test on the same-day estimate,
 * with the information and the unevenness that trips of this log bring, averaged over good and bad
 * luck with the trips to come.
 * 0 with fewer than two strata that tell anything.
 * Source: variance of the Mantel–Haenszel difference and ratio of totals over strata of independent
 * units (Greenland & Robins 1985), with the design effect; degrees of freedom of Bell & McCaffrey
 * 2002 at the log's own weights.
 */
export function planPower(basis: PlanBasis, target: PlanTarget, trips: number): number {
  const { weights, totals } = expected(basis, trips);
  if (weights.filter((weight) => weight > 0).length < 2) return 0;
  const [a, b] = plannedRates(basis, target);
  const variance = unitVariance(basis, target);
  if (variance === 0) return 1;
  const difference = isProportion(target.measure) ? a - b : Math.log(a / b);
  const df = Math.max(1, bellMcCaffrey(weights, sumOf(weights)));
  const powers = totals.map((total) => {
    const contest = { difference, standardError: Math.sqrt(variance / total), df };
    return tTestPower(contest, { alpha: 1 - target.level, sided: 2 }).power;
  });
  return sumOf(powers) / powers.length;
}

/**
 * Variance of the estimate for each unit of weight, at the rates of the plan. What lies beyond
 * independent bites (the design effect less 1) was seen at the log's own rate. It stays as it is
 * for the log of a rate. For a share it grows with p(1 − p) if bites of a day are always as alike,
 * and with its square if days shift the log-odds; the middle of the two is taken. What lies below
 * independent bites is not counted on to grow.
 */
function unitVariance(basis: PlanBasis, target: PlanTarget): number {
  const rates = plannedRates(basis, target);
  const { designEffect } = basis.spread;
  const own = basis.base.estimate;
  if (!isProportion(target.measure)) {
    const plain = sumOf(rates.map((rate) => 1 / rate)) / 2;
    return plain + (designEffect - 1) / own;
  }
  const ofRates = rates.map((rate) => {
    const plain = rate * (1 - rate);
    const grown = designEffect > 1 ? Math.sqrt(plain / (own * (1 - own))) : 1;
    return plain * (1 + (designEffect - 1) * grown);
  });
  return sumOf(ofRates) / 2;
}

/**
 * The fewest trips that tell the difference with the power asked, an even number so that the sides
 * balance; null where not even {@link MOST_TRIPS} would.
 */
export function tripsNeeded(basis: PlanBasis, target: PlanTarget): number | null {
  const enough = (halves: number) => planPower(basis, target, 2 * halves) >= target.power;
  let high = 2;
  while (!enough(high)) {
    if (2 * high >= MOST_TRIPS) return null;
    high = Math.min(2 * high, MOST_TRIPS / 2);
  }
  let low = 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return 2 * high;
}

/**
 * The smallest difference that so many trips tell with the power asked, in the unit of the target;
 * null where not even the largest possible would be told.
 */
export function detectableByPlan(
  basis: PlanBasis,
  target: Omit<PlanTarget, 'difference'>,
  trips: number,
): number | null {
  const short = (difference: number) =>
    planPower(basis, { ...target, difference }, trips) - target.power;
  const most = Math.min(mostDifference(basis, target.measure), LARGEST_SHARE);
  if (short(most) < 0) return null;
  return findRoot(short, { lower: most * 1e-9, upper: most, tolerance: 1e-6 });
}

/** A rate a hundred times another needs no plan. */
const LARGEST_SHARE = 100;

/** What trips to come are expected to bring. */
interface Expected {
  /** A typical set of strata: the log's weights, read at even steps from the least to the most. */
  readonly weights: readonly number[];
  /** Sums of weights that are equally likely, from bad luck to good. */
  readonly totals: readonly number[];
}

/** Steps from bad luck with the trips to good. */
const LUCKS = 9;

/**
 * With few trips, or wild days, the sum of the weights itself is uncertain, and power falls more
 * with bad luck than it gains with good. The sum is taken as gamma with the log's own mean and
 * variation, which came within 2 points of drawing the trips themselves (8 to 70 trips).
 */
function expected({ design, strata }: PlanBasis, trips: number): Expected {
  const count = design === 'sides' ? trips : Math.floor(trips / 2);
  const sorted = [...strata.weights].sort((a, b) => a - b);
  const weights = Array.from(
    { length: count },
    (_, at) => sorted[Math.floor(((at + 0.5) / count) * sorted.length)] ?? 0,
  );
  const mean = sumOf(sorted) / sorted.length;
  const variation = sumOf(sorted.map((weight) => (weight / mean - 1) ** 2)) / sorted.length;
  if (variation === 0) return { weights, totals: [count * mean] };
  const shape = count / variation;
  const totals = Array.from(
    { length: LUCKS },
    (_, at) => (count * mean * gammaQuantile((at + 0.5) / LUCKS, shape)) / shape,
  );
  return { weights, totals };
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
