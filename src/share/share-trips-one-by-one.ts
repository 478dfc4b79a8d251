import { plural } from '../base/words.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { compare } from '../tidy/tidy-trips.ts';
import { splitByEffort } from './effort-basis.ts';
import { noPlaceRefusal } from './messages-refused.ts';
import type { ShareChoices } from './share-options.ts';
import type { ShareTrip } from './share-trip.ts';
import { sharedRates } from './shared-rates.ts';
import { vesselCount } from './thresholds.ts';
import type { TierResult } from './tier-result.ts';
import { type TripDetail, tripTimeText } from './trip-classes.ts';
import { tripRows } from './trip-rows.ts';
import { LEAST_DIVERSITY, type TripTier, tripTier } from './trip-tier.ts';

interface TripTierOptions {
  readonly choices: ShareChoices;
  readonly key: Buffer;
  readonly k: number;
  readonly asked: TripDetail;
}

/**
 * Trips under pseudonyms, each among k or more alike.
 * @returns the reason, where no detail keeps enough trips in classes of k.
 */
export function shareTripsOneByOne(
  season: TidySeason,
  trips: readonly ShareTrip[],
  { choices, key, k, asked }: TripTierOptions,
): TierResult | string {
  const { thresholds } = choices;
  const effort = splitByEffort(trips);
  const tier = tripTier(effort.withEffort, asked, { k, l: LEAST_DIVERSITY, thresholds });
  const unplaced = effort.withEffort.filter((trip) => trip.lat === null || trip.lon === null);
  if (unplaced.length === trips.length) return noPlaceRefusal(trips.length);
  if (tier === null) {
    return (
      `Even told by quarter and 5 degree cell alone, more than a tenth of ` +
      `${plural(trips.length, 'trip')} would have fewer than ${k - 1} others like them, so none is ` +
      'shown one by one. Share sums instead (leave out --tier trips), or more trips together.'
    );
  }
  const shown = tier.classes.flatMap((one) => one.trips);
  const { rows, species } = tripRows(tier, choices.gear, key);
  return {
    content: { tier: 'trips', rows },
    basis: effort.basis,
    rates: sharedRates(season, shown, effort.basis),
    shown,
    species,
    groups: tier.classes.map((one) => one.trips),
    leastTrips: Math.max(k, thresholds.minTrips),
    account: {
      trips: shown.length,
      vessels: vesselCount(shown),
      span: spanOf(shown, tier.detail),
      smallest: {
        trips: Math.min(...tier.classes.map((one) => one.trips.length)),
        vessels: Math.min(...tier.classes.map((one) => vesselCount(one.trips))),
      },
      leftOut: { kind: shown.length === trips.length ? 'none' : 'untold' },
      cells: null,
      classes: classAccount(tier, asked),
    },
    hidden: {
      trips: trips.length - shown.length,
      squares: [],
      givenUp: [],
      unplaced: unplaced.length,
      withoutEffort: effort.without.length,
      totalsWithheld: 0,
    },
  };
}

function classAccount({ classes, detail }: TripTier, asked: TripDetail) {
  return {
    detail,
    classes: classes.length,
    k: Math.min(...classes.map((one) => one.trips.length)),
    l: Math.min(...classes.map((one) => one.diversity)),
    isCoarser: JSON.stringify(detail) !== JSON.stringify(asked),
  };
}

function spanOf(
  trips: readonly ShareTrip[],
  { time }: TripDetail,
): readonly [string, string] | null {
  const times = trips.map((trip) => tripTimeText(trip, time)).sort(compare);
  const [first, last] = [times[0], times.at(-1)];
  return first === undefined || last === undefined ? null : [first, last];
}
