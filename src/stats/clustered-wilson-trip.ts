import { type Basis, estimated, notEstimable } from '../base/estimate.ts';
import { type ClusterBasis, type ClusteredEstimate, ONE_TRIP } from './clustered-estimate.ts';
import { proportionTotals, type TripProportion } from './clustered-proportion.ts';
import type { ClusterRatio } from './clustered-ratio.ts';
import { type Level, normalCritical, tCritical } from './interval-level.ts';
import { clopperPearsonLimits } from './interval-proportion-clopper-pearson.ts';
import { wilsonLimits } from './interval-proportion-wilson.ts';

/** How `wilsonTrip` is to work; see `borrowedCorrelation` of `withinTripCorrelation`. */
export interface WilsonTripOptions extends Level {
  /**
   * Within-trip correlation (0 to 1) of the same measure over the whole log, used only where the
   * group itself is all or none. Null or absent: not known, which a note then says.
   */
  readonly borrowedCorrelation?: number | null;
}

const METHOD = 'wilson-trip';
const NOT_BORROWED =
  'How alike fish of one trip are could not be worked out, so each counts as independent and the interval may be too narrow.';

/**
 * THE proportion of this project: successes over units with trips as clusters, `wilson-trip`.
 * Wilson's interval on the effective number N/d with Student's t, where d ≥ 1 is the design effect
 * from the CR2 variance. All or none: exact limits on N/d with the borrowed correlation. One trip:
 * plain Wilson with z, marked by a note that begins "one trip". Trips without units are left out;
 * none left, or counts that cannot be: not estimable.
 * Source: Wilson 1927; Kott & Carr 1997; Dean & Pagano 2015; Bell & McCaffrey 2002.
 */
export function wilsonTrip(
  trips: readonly TripProportion[],
  { level, borrowedCorrelation = null }: WilsonTripOptions,
): ClusteredEstimate {
  const ratio = proportionTotals(trips);
  if (typeof ratio === 'string') return refused(ratio, level);
  if (ratio.clusters === 1) return oneTrip(ratio, level);
  if (ratio.numerator === 0 || ratio.numerator === ratio.denominator)
    return allOrNone(ratio, meanSize(trips), { level, borrowedCorrelation });
  const designEffect = designEffectOf(ratio);
  const critical = tCritical(level, ratio.degreesOfFreedom);
  const successes = ratio.numerator / designEffect;
  const limits = wilsonLimits(successes, ratio.denominator / designEffect, critical);
  const { degreesOfFreedom } = ratio;
  return { ...made(ratio, { level, limits, designEffect, notes: [] }), degreesOfFreedom };
}

/**
 * Within-trip correlation ρ = (d − 1)/(m − 1) held to [0, 1], from all trips of a log: d is the
 * design effect of `wilsonTrip`, m = Σn²/Σn the size of trip a unit finds itself in. 0 where every
 * trip has one unit. Null when it cannot be told: fewer than two trips, all or none, or counts
 * that cannot be.
 * Source: Kish 1965 (d = 1 + (m − 1)ρ, turned round).
 */
export function withinTripCorrelation(trips: readonly TripProportion[]): number | null {
  const ratio = proportionTotals(trips);
  if (typeof ratio === 'string' || ratio.clusters < 2) return null;
  if (ratio.numerator === 0 || ratio.numerator === ratio.denominator) return null;
  const excess = meanSize(trips) - 1;
  if (excess <= 0) return 0;
  return Math.min(1, Math.max(0, (designEffectOf(ratio) - 1) / excess));
}

/** Size of trip that a unit finds itself in, Σn²/Σn. */
function meanSize(trips: readonly TripProportion[]): number {
  const total = trips.reduce((sum, { units }) => sum + units, 0);
  return trips.reduce((sum, { units }) => sum + units * (units / total), 0);
}

/** CR2 variance over the binomial one, never below 1. */
function designEffectOf({ ratio, numerator, denominator, variance }: ClusterRatio): number {
  const binomial = (ratio * ((denominator - numerator) / denominator)) / denominator;
  return Math.max(1, variance / binomial);
}

function oneTrip(ratio: ClusterRatio, level: number): ClusteredEstimate {
  const limits = wilsonLimits(ratio.numerator, ratio.denominator, normalCritical(level));
  const estimate = made(ratio, { level, limits, designEffect: 1, notes: [ONE_TRIP] });
  return { ...estimate, designEffect: null };
}

function allOrNone(
  ratio: ClusterRatio,
  size: number,
  { level, borrowedCorrelation }: Required<WilsonTripOptions>,
): ClusteredEstimate {
  const designEffect = 1 + Math.max(0, size - 1) * (borrowedCorrelation ?? 0);
  const successes = ratio.numerator / designEffect;
  const limits = clopperPearsonLimits(successes, ratio.denominator / designEffect, level);
  const notes = borrowedCorrelation === null && size > 1 ? [NOT_BORROWED] : [];
  return made(ratio, { level, limits, designEffect, notes });
}

function made(
  { clusters, denominator, ratio }: ClusterRatio,
  figure: Level & {
    limits: { lower: number; upper: number };
    designEffect: number;
    notes: readonly string[];
  },
): ClusteredEstimate {
  const { level, limits, designEffect, notes } = figure;
  const basis: Basis = { level, method: METHOD, n: denominator, exposure: null, notes };
  const effectiveN = denominator / designEffect;
  const over: ClusterBasis = { clusters, designEffect, degreesOfFreedom: null, effectiveN };
  return { ...estimated({ ...basis, estimate: ratio, ...limits }), ...over };
}

function refused(reason: string, level: number): ClusteredEstimate {
  const basis: Basis = { level, method: METHOD, n: 0, exposure: null, notes: [] };
  const over = { clusters: 0, designEffect: null, degreesOfFreedom: null, effectiveN: null };
  return { ...notEstimable(reason, basis), ...over };
}
