import { linearised } from './clustered-linearised.ts';
import { proportionTotals, type TripProportion } from './clustered-proportion.ts';
import { jackknifeRatio } from './jackknife-ratio.ts';

/** How far trips spread around their common proportion, in the textbook measures. */
export interface ProportionSpread {
  readonly clusters: number;
  readonly units: number;
  readonly successes: number;
  readonly estimate: number;
  /** Plain linearised variance K/(K − 1)·Σr²/N²; null with one trip. */
  readonly variance: number | null;
  readonly se: number | null;
  /** Trips − 1. */
  readonly df: number;
  /** variance over p(1 − p)/N; may be below 1; null with one trip or no spread. */
  readonly designEffect: number | null;
  /** The same over p(1 − p)/(N − 1). */
  readonly designEffectSrsNminus1: number | null;
  /** Independent units with the same variance, p(1 − p)/variance; null with one trip or no spread. */
  readonly effectiveN: number | null;
  /** Standard error from leaving out one trip at a time, around the estimate; null with one trip. */
  readonly jackknifeSe: number | null;
}

/**
 * Textbook measures of spread of a proportion over trips. No units, or counts that cannot be: the
 * sentence that says so.
 * Source: Cochran 1977 ch. 6; Kish 1965 (design effect).
 */
export function proportionSpread(trips: readonly TripProportion[]): ProportionSpread | string {
  const totals = proportionTotals(trips);
  if (typeof totals === 'string') return totals;
  const { clusters, denominator: units, numerator: successes, ratio: estimate } = totals;
  const figure = linearised(totals);
  const variance = figure?.variance ?? null;
  const spread = variance !== null && variance > 1e-30 ? variance : null;
  const ofOneUnit = estimate * (1 - estimate);
  const counted = trips.filter((trip) => trip.units > 0);
  const jackknife = jackknifeRatio(
    counted.map((trip) => trip.successes),
    counted.map((trip) => trip.units),
  );
  return {
    ...{ clusters, units, successes, estimate, variance },
    se: figure?.se ?? null,
    df: clusters - 1,
    designEffect: spread && (spread / ofOneUnit) * units,
    designEffectSrsNminus1: spread && (spread / ofOneUnit) * (units - 1),
    effectiveN: spread && ofOneUnit / spread,
    jackknifeSe: jackknife?.seAroundEstimate ?? null,
  };
}
