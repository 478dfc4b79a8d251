import { type ClusterRatio, clusterRatio } from './clustered-ratio.ts';
import { NOTHING_COUNTED, whyNoProportion } from './interval-proportion.ts';

/** One trip's share of a proportion: successes out of units, e.g. hooked out of bites. */
export interface TripProportion {
  readonly successes: number;
  readonly units: number;
}

/**
 * Trips as a proportion of totals, or the sentence that says why there is none. Trips without units
 * are left out.
 */
export function proportionTotals(trips: readonly TripProportion[]): ClusterRatio | string {
  for (const { successes, units } of trips) {
    const reason = units === 0 && successes === 0 ? null : whyNoProportion(successes, units);
    if (reason !== null) return reason;
  }
  const successes = trips.map((trip) => trip.successes);
  const units = trips.map((trip) => trip.units);
  return clusterRatio(successes, units) ?? NOTHING_COUNTED;
}
