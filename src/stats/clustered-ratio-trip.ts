import { type Basis, estimated, notEstimable } from '../base/estimate.ts';
import {
  type ClusterBasis,
  type ClusteredEstimate,
  NO_SPREAD,
  ONE_CLUSTER,
  ONE_TRIP,
} from './clustered-estimate.ts';
import { rateTotals, type TripRate } from './clustered-rate.ts';
import type { ClusterRatio } from './clustered-ratio.ts';
import { type Level, normalCritical, tCritical } from './interval-level.ts';
import { garwoodLimits } from './interval-rate.ts';

const NO_EVENT = 'No event was seen, and a log scale needs at least one.';
const NO_EVENTS = 'no events: the interval takes events as independent and may be too narrow.';

/**
 * THE rate of this project: events over exposure with trips as clusters, `ratio-trip`.
 * Garwood's interval on the effective events C/D, where D = max(1, v/(R/E))·(t/z)² from the CR2
 * variance v and Student's t. No events or one trip: Garwood's on the whole exposure, marked by a
 * note. Trips without exposure are left out, and events on them named in a note; no exposure, or
 * counts that cannot be: not estimable.
 * Source: Cochran 1977 ch. 6; Garwood 1936 on effective counts after Korn & Graubard 1998 and
 * Fay & Feuer 1997; Bell & McCaffrey 2002.
 */
export function ratioTrip(trips: readonly TripRate[], { level }: Level): ClusteredEstimate {
  const ratio = rateTotals(trips);
  if (typeof ratio === 'string') return refused(ratio, { level, method: 'ratio-trip' });
  if (ratio.clusters === 1 || ratio.numerator === 0) return plainGarwood(ratio, level);
  const { numerator, denominator, variance, degreesOfFreedom } = ratio;
  const designEffect = Math.max(1, variance / (ratio.ratio / denominator));
  const widening = (tCritical(level, degreesOfFreedom) / normalCritical(level)) ** 2;
  const divisor = designEffect * widening;
  const limits = garwoodLimits(numerator / divisor, level);
  return made(ratio, {
    level,
    method: 'ratio-trip',
    limits: { lower: limits.lower * divisor, upper: limits.upper * divisor },
    over: { designEffect, degreesOfFreedom, effectiveN: numerator / divisor },
  });
}

/**
 * The same ratio with Student's t on the log scale, exp(ln R ± t√v/R), `ratio-log-t`; v is the CR2
 * variance without a floor. No events, fewer than two trips, or the same rate on every trip: not
 * estimable.
 * Source: Cochran 1977 ch. 6; Bell & McCaffrey 2002; delta method.
 */
export function ratioLogT(trips: readonly TripRate[], { level }: Level): ClusteredEstimate {
  const ratio = rateTotals(trips);
  const method = 'ratio-log-t';
  if (typeof ratio === 'string') return refused(ratio, { level, method });
  if (ratio.clusters === 1) return refused(ONE_CLUSTER, { level, method }, ratio);
  if (ratio.numerator === 0) return refused(NO_EVENT, { level, method }, ratio);
  const { numerator, denominator, variance, degreesOfFreedom } = ratio;
  const standardError = Math.sqrt(variance) / ratio.ratio;
  if (standardError < 1e-15) return refused(NO_SPREAD, { level, method }, ratio);
  const spread = Math.exp(tCritical(level, degreesOfFreedom) * standardError);
  const designEffect = Math.max(1, variance / (ratio.ratio / denominator));
  return made(ratio, {
    level,
    method,
    limits: { lower: numerator / spread, upper: numerator * spread },
    over: { designEffect, degreesOfFreedom, effectiveN: numerator / designEffect },
  });
}

function plainGarwood(ratio: ClusterRatio, level: number): ClusteredEstimate {
  const marks = [
    ...(ratio.clusters === 1 ? [ONE_TRIP] : []),
    ...(ratio.numerator === 0 ? [NO_EVENTS] : []),
  ];
  const limits = garwoodLimits(ratio.numerator, level);
  const over = { designEffect: null, degreesOfFreedom: null, effectiveN: ratio.numerator };
  return made(ratio, { level, method: 'ratio-trip', limits, over }, marks);
}

interface Figure extends Level {
  readonly method: string;
  /** Of the event count. */
  readonly limits: { readonly lower: number; readonly upper: number };
  readonly over: Omit<ClusterBasis, 'clusters'>;
}

function made(
  { clusters, denominator, ratio, numeratorLeftOut }: ClusterRatio,
  { level, method, limits, over }: Figure,
  marks: readonly string[] = [],
): ClusteredEstimate {
  const leftOut = `Events on trips without recorded effort are left out: ${numeratorLeftOut}.`;
  const notes = numeratorLeftOut > 0 ? [...marks, leftOut] : marks;
  const basis: Basis = { level, method, n: clusters, exposure: denominator, notes };
  const interval = { lower: limits.lower / denominator, upper: limits.upper / denominator };
  return { ...estimated({ ...basis, estimate: ratio, ...interval }), clusters, ...over };
}

function refused(
  reason: string,
  { level, method }: Level & { method: string },
  ratio: ClusterRatio | null = null,
): ClusteredEstimate {
  const clusters = ratio?.clusters ?? 0;
  const basis: Basis = { level, method, n: clusters, exposure: ratio?.denominator ?? 0, notes: [] };
  const over = { designEffect: null, degreesOfFreedom: null, effectiveN: null };
  return { ...notEstimable(reason, basis), clusters, ...over };
}
