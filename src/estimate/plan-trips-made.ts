import type { ScheduledTrip } from '../read/read-schedule.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';

/** A trip of a schedule that was made, with its trip in the log. */
export interface TripMade {
  readonly scheduled: ScheduledTrip;
  readonly trip: TidyTrip;
}

/** A trip of a schedule that says it was made, and is not to be found in the log. */
export interface TripMissing {
  readonly scheduled: ScheduledTrip;
  /** In a sentence. */
  readonly reason: string;
}

/** What became of the trips of a schedule. */
export interface TripsMade {
  readonly made: readonly TripMade[];
  readonly missing: readonly TripMissing[];
  /** Trips without a date and a trip_id: not made yet. */
  readonly open: number;
}

/**
 * Finds the trips of a schedule in the log: by trip_id, else by date. Of two trips of the log on one
 * day the earlier goes to the lower number of the schedule. No trip of the log is used twice.
 */
export function tripsMade(schedule: readonly ScheduledTrip[], log: readonly TidyTrip[]): TripsMade {
  const taken = new Map<TidyTrip, number>();
  const made: TripMade[] = [];
  const missing: TripMissing[] = [];
  const told = schedule.filter(({ date, tripId }) => date !== null || tripId !== null);
  // Trips named by their id go first, so that no date takes theirs away.
  const byId = told.filter(({ tripId }) => tripId !== null);
  const byDate = told.filter(({ tripId }) => tripId === null);
  for (const scheduled of [...byId, ...byDate]) {
    const { tripNumber, tripId, date } = scheduled;
    const named = log.filter((trip) =>
      tripId === null ? trip.date === date : keyOf(trip.trip_id) === keyOf(tripId),
    );
    const free = named.find((trip) => !taken.has(trip));
    const [first] = named;
    if (free !== undefined) {
      taken.set(free, tripNumber);
      made.push({ scheduled, trip: free });
    } else if (first !== undefined) {
      const other = `trip ${taken.get(first)} of the schedule already`;
      const reason = `The log’s trip ${words(scheduled)} is ${other}.`;
      missing.push({ scheduled, reason });
    } else {
      missing.push({ scheduled, reason: `The log has no trip ${words(scheduled)}.` });
    }
  }
  made.sort((a, b) => a.trip.order - b.trip.order);
  return { made, missing, open: schedule.length - told.length };
}

function words({ tripId, date }: ScheduledTrip): string {
  return tripId === null ? `of ${date}` : tripId;
}

/** `PV 12` and `pv-012` name one trip to whoever copies it by hand; leading zeros fall away. */
function keyOf(tripId: string): string {
  return tripId
    .toLowerCase()
    .replace(/[\s_-]+/g, '')
    .replace(/(^|\D)0+(?=\d)/g, '$1');
}
