import { pseudonym } from './pseudonym.ts';
import type { NewRelease, TripNames } from './release-ledger.ts';
import type { ShareChoices } from './share-options.ts';
import type { ShareTrip } from './share-trip.ts';
import type { TierResult } from './tier-result.ts';

/**
 * The token of a trip in the ledger: of its id and all that it adds to a sum, so that a trip that was
 * corrected since it left is another one.
 */
export function tripToken(trip: ShareTrip, key: Buffer): string {
  return pseudonym(key, 'trip-token', JSON.stringify([trip.trip_id, contentOf(trip)]));
}

/** All that a trip adds to a sum, and where. */
function contentOf(trip: ShareTrip) {
  const catches = [...trip.catches].sort().map(([code, fates]) => [code, fates]);
  const { vessel, date, lat, lon, hours, lineHours, bites, missed } = trip;
  return [vessel, date, lat, lon, hours, lineHours, bites, missed, catches];
}

/** A package as the ledger notes it. */
export function releaseOf(
  { content, groups, leastTrips }: TierResult,
  { thresholds, noise }: Pick<ShareChoices, 'thresholds' | 'noise'>,
  key: Buffer,
): NewRelease {
  const trips: Record<string, TripNames> = {};
  const alike = new Map<string, number>();
  const tokens = groups.map((group) =>
    group.map((trip) => {
      const token = tripToken(trip, key);
      const text = JSON.stringify(contentOf(trip));
      // Two trips of one day may add the same; numbered, they stay two.
      const number = alike.get(text) ?? 0;
      alike.set(text, number + 1);
      trips[token] = {
        vessel: pseudonym(key, 'vessel', trip.vessel),
        id: pseudonym(key, 'trip-id', trip.trip_id),
        content: pseudonym(key, 'trip-content', `${number} ${text}`),
      };
      return token;
    }),
  );
  const { minVessels: min_vessels } = thresholds;
  const { tier } = content;
  return { tier, min_vessels, min_trips: leastTrips, noise, groups: tokens, trips };
}
