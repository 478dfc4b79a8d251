import { pseudonym } from './pseudonym.ts';
import type { NewRelease } from './release-ledger.ts';
import type { ShareTrip } from './share-trip.ts';
import type { Thresholds } from './thresholds.ts';
import type { TierResult } from './tier-result.ts';

/**
 * The token of a trip in the ledger: of its id and all that it adds to a sum, so that a trip that was
 * corrected since it left is another one.
 */
export function tripToken(trip: ShareTrip, key: Buffer): string {
  const catches = [...trip.catches].sort().map(([code, fates]) => [code, fates]);
  const { trip_id, vessel, date, lat, lon, hours, lineHours, bites, missed } = trip;
  const content = [trip_id, vessel, date, lat, lon, hours, lineHours, bites, missed, catches];
  return pseudonym(key, 'trip-content', JSON.stringify(content));
}

/** A package as the ledger notes it. */
export function releaseOf(
  { content, groups }: TierResult,
  { minVessels, minTrips }: Thresholds,
  key: Buffer,
): NewRelease {
  const vessels: Record<string, string> = {};
  const tokens = groups.map((group) =>
    group.map((trip) => {
      const token = tripToken(trip, key);
      vessels[token] = pseudonym(key, 'vessel', trip.vessel);
      return token;
    }),
  );
  const thresholds = { min_vessels: minVessels, min_trips: minTrips };
  return { tier: content.tier, ...thresholds, groups: tokens, vessels };
}
