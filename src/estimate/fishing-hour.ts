import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { ratioTrip } from '../stats/clustered-ratio-trip.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type AskedPart, askedBites, askedTrips } from './asked-rows.ts';

/** What an hour of fishing brought, however many lines were out. */
export interface FishingHour {
  /** Caught fish per hour from lines in to lines out. */
  readonly caught: Estimate;
  readonly caughtFish: number;
  readonly hours: number;
  /** Trips whose hours are known. */
  readonly trips: number;
}

/**
 * Fish caught per hour fished: the ratio of the totals over trips whose hours are known (lines in
 * and out, else hours_fished), with trips as clusters. Not estimable without hours.
 */
export function caughtPerFishingHour(
  season: TidySeason,
  part: AskedPart & { readonly level: number },
): FishingHour {
  const caught = askedBites(season, part).filter(
    ({ outcome }) => outcome === 'released' || outcome === 'kept',
  );
  const ofTrip = groupBy(caught, ({ trip_id }) => trip_id);
  const trips = askedTrips(season, part).flatMap(({ trip_id, fishedHours }) => {
    if (fishedHours === null || fishedHours <= 0) return [];
    const events = (ofTrip.get(trip_id) ?? []).reduce((sum, { count }) => sum + count, 0);
    return [{ events, exposure: fishedHours }];
  });
  return {
    caught: ratioTrip(trips, part),
    caughtFish: trips.reduce((sum, { events }) => sum + events, 0),
    hours: trips.reduce((sum, { exposure }) => sum + exposure, 0),
    trips: trips.length,
  };
}
