import type { ShareTrip } from './share-trip.ts';
import { mayPublish, type Thresholds } from './thresholds.ts';
import { coarserDetails, type TripClass, type TripDetail, tripClasses } from './trip-classes.ts';

/** What a class must hold: k trips (and the vessels asked for), and l sizes of catch. */
export interface Anonymity {
  readonly k: number;
  readonly l: number;
}

/** Common practice, no source; the owner may ask for more. */
export const DEFAULT_K = 5;
/** The least that makes knowing a class less than knowing its catch. */
export const LEAST_DIVERSITY = 2;
/** More left out than this, and what remains speaks for the busy days only. Ours. */
const MOST_LEFT_OUT = 0.1;

/** Classes that may leave, at the finest detail that keeps nearly all trips. */
export interface TripTier {
  readonly detail: TripDetail;
  readonly classes: readonly TripClass[];
  /** Trips in classes too small or too much alike. */
  readonly leftOut: readonly ShareTrip[];
}

/**
 * Trips one by one, each among k or more that nobody can tell apart by time, place and wind. Where
 * the detail asked for leaves more than a tenth of the trips in smaller classes, a coarser one is
 * tried; the few that then remain are left out.
 * @returns null where even the coarsest detail leaves too many: nothing may leave then.
 */
export function tripTier(
  trips: readonly ShareTrip[],
  asked: TripDetail,
  { k, l, thresholds }: Anonymity & { readonly thresholds: Thresholds },
): TripTier | null {
  const placed = trips.filter((trip) => trip.lat !== null && trip.lon !== null);
  const needed = { ...thresholds, minTrips: Math.max(k, thresholds.minTrips) };
  const holds = (one: TripClass) => one.diversity >= l && mayPublish(one.trips, needed);
  for (const detail of coarserDetails(asked)) {
    const classes = tripClasses(placed, detail).filter(holds);
    const kept = new Set(classes.flatMap((one) => one.trips));
    if (kept.size > 0 && kept.size >= (1 - MOST_LEFT_OUT) * placed.length) {
      return { detail, classes, leftOut: placed.filter((trip) => !kept.has(trip)) };
    }
  }
  return null;
}
