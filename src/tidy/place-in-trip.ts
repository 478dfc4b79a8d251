import type { EpochMinute, ZoneClock } from '../base/zone.ts';
import type { TidyTrip } from './tidy-trips.ts';

/** How long a trip is taken to last when lines out was not logged. */
const OPEN_TRIP_MINUTES = 720;

/**
 * The instants a wall-clock minute may mean on a trip: on the trip's date, or after midnight when
 * that lies nearer to the hours the trip fished. Two only in an hour that is lived twice.
 */
export function instantsOnTrip(
  trip: TidyTrip,
  minute: number,
  clock: ZoneClock,
): readonly [EpochMinute, ...EpochMinute[]] {
  const sameDay = clock.instants(trip.date, minute);
  if (trip.start === null) return sameDay;
  const nextDay = clock.instants(trip.date, minute + 1440);
  const { start } = trip;
  const end = trip.end ?? start + OPEN_TRIP_MINUTES;
  const outside = (at: EpochMinute) => Math.max(start - at, at - end, 0);
  const distance = (candidates: readonly EpochMinute[]) => Math.min(...candidates.map(outside));
  return distance(nextDay) < distance(sameDay) ? nextDay : sameDay;
}
