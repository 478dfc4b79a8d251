import {
  type Basis,
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';
import { NO_SPREAD, ONE_CLUSTER } from './clustered-estimate.ts';
import type { ClusterRatio } from './clustered-ratio.ts';
import { type Level, tCritical } from './interval-level.ts';

/**
 * A ratio over trips with its plain linearised variance, K/(K − 1) · Σ r² / N². The textbook form,
 * kept for comparison: with few or unequal trips it comes out too small, which is why `wilsonTrip`
 * and `ratioTrip` take the bias-reduced one.
 */
export interface LinearisedRatio {
  readonly clusters: number;
  readonly numerator: number;
  readonly denominator: number;
  readonly ratio: number;
  readonly variance: number;
  readonly se: number;
  /** Trips − 1. */
  readonly df: number;
}

/**
 * The ratio of totals with the plain linearised variance; null with fewer than two trips.
 * Source: Cochran 1977 ch. 6.
 */
export function linearised(totals: ClusterRatio): LinearisedRatio | null {
  const { clusters, numerator, denominator, ratio, residuals } = totals;
  if (clusters < 2) return null;
  const squares = residuals.reduce((sum, r) => sum + (r / denominator) ** 2, 0);
  const variance = (clusters / (clusters - 1)) * squares;
  const se = Math.sqrt(variance);
  return { clusters, numerator, denominator, ratio, variance, se, df: clusters - 1 };
}

/** What a textbook interval over clusters is made from; t is the upper α/2 point on `df`. */
export interface LinearisedFigure extends LinearisedRatio, Level {
  readonly t: number;
}

/** Limits from a figure, or the sentence that says why there are none. */
export type LinearisedLimits = (figure: LinearisedFigure) => Interval | string;

/**
 * One estimate over trips by one textbook method. Totals that are a reason, a single trip, and
 * trips without any spread: not estimable.
 */
export function linearisedEstimate(
  totals: ClusterRatio | string,
  basis: Omit<Basis, 'notes'>,
  limitsOf: LinearisedLimits,
): Estimate {
  const full: Basis = { ...basis, notes: [] };
  if (typeof totals === 'string') return notEstimable(totals, full);
  const ratio = linearised(totals);
  if (ratio === null) return notEstimable(ONE_CLUSTER, full);
  if (ratio.se <= 1e-15 * ratio.ratio) return notEstimable(NO_SPREAD, full);
  const limits = limitsOf({ ...ratio, level: basis.level, t: tCritical(basis.level, ratio.df) });
  if (typeof limits === 'string') return notEstimable(limits, full);
  return estimated({ ...full, estimate: ratio.ratio, ...limits });
}
