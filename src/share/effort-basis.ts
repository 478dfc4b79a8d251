import type { ShareTrip } from './share-trip.ts';

/** In what the effort of a package is counted. */
export type EffortBasis = 'line-hours' | 'hours' | 'trips';

/** A log's trips by whether they have effort on the basis that most of them do. */
export interface EffortSplit {
  readonly basis: EffortBasis;
  readonly withEffort: readonly ShareTrip[];
  readonly without: readonly ShareTrip[];
}

/**
 * The finest effort that at least half the trips have. Trips without it stay out of the rows: their
 * fish beside the hours of others would be a rate of nothing, and what they caught would follow from
 * the difference between fish and fish per hour.
 */
export function splitByEffort(trips: readonly ShareTrip[]): EffortSplit {
  const bases = [
    { basis: 'line-hours', has: (trip: ShareTrip) => trip.lineHours !== null },
    { basis: 'hours', has: (trip: ShareTrip) => trip.hours !== null },
  ] as const;
  for (const { basis, has } of bases) {
    const withEffort = trips.filter(has);
    if (withEffort.length > 0 && 2 * withEffort.length >= trips.length) {
      return { basis, withEffort, without: trips.filter((trip) => !has(trip)) };
    }
  }
  return { basis: 'trips', withEffort: trips, without: [] };
}
