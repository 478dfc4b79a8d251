import { type ClusterRatio, clusterRatio } from './clustered-ratio.ts';
import { NO_EFFORT, whyNoRate } from './interval-rate.ts';

/** One trip's share of a rate: events in an exposure, e.g. bites in line-hours. */
export interface TripRate {
  readonly events: number;
  readonly exposure: number;
}

/**
 * Trips as a rate of totals, or the sentence that says why there is none. Trips without exposure
 * are left out, and their events with them.
 */
export function rateTotals(trips: readonly TripRate[]): ClusterRatio | string {
  for (const { events, exposure } of trips) {
    const reason = exposure === 0 ? null : whyNoRate(events, exposure);
    if (reason !== null) return reason;
  }
  const events = trips.map((trip) => trip.events);
  const exposures = trips.map((trip) => trip.exposure);
  return clusterRatio(events, exposures) ?? NO_EFFORT;
}
