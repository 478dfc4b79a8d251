import type { EpochMinute, ZoneClock } from '../base/zone.ts';
import type { TripRow } from '../read/rows.ts';
import { beaufortForce } from './beaufort.ts';
import { monthOf, weekOf } from './calendar.ts';
import { type MoonEighth, moonEighth } from './moon.ts';

/** A trip with what follows from its own row. */
export interface TidyTrip extends TripRow {
  /** Place among the season's trips in time, from 0. */
  readonly order: number;
  /** When lines went in; null where the clock was not logged. */
  readonly start: EpochMinute | null;
  /** When lines came out, after midnight if need be. */
  readonly end: EpochMinute | null;
  /** Hours between lines in and lines out by real time, else `hours_fished`; null: not recorded. */
  readonly fishedHours: number | null;
  readonly month: string;
  readonly week: string;
  /** Beaufort force of the trip's wind. */
  readonly windForce: number | null;
  readonly moon: MoonEighth;
}

/** One row per trip, ordered by date, then by lines in, then by place in the file. */
export function tidyTrips(rows: readonly TripRow[], clock: ZoneClock): TidyTrip[] {
  return rows
    .map((row) => tidyTrip(row, clock))
    .sort((a, b) => compare(a.date, b.date) || (a.start ?? 0) - (b.start ?? 0) || a.line - b.line)
    .map((trip, order) => ({ ...trip, order }));
}

function tidyTrip(row: TripRow, clock: ZoneClock): Omit<TidyTrip, 'order'> {
  const start = row.lines_in === null ? null : clock.instants(row.date, row.lines_in)[0];
  const end =
    start === null || row.lines_out === null
      ? null
      : firstAtOrAfter(
          start,
          { date: row.date, minuteIn: row.lines_in ?? 0, minute: row.lines_out },
          clock,
        );
  return {
    ...row,
    start,
    end,
    fishedHours: start === null || end === null ? row.hours_fished : (end - start) / 60,
    month: monthOf(row.date),
    week: weekOf(row.date),
    windForce: row.wind_kn === null ? null : beaufortForce(row.wind_kn),
    moon: moonEighth(clock.instants(row.date, 720)[0]),
  };
}

/**
 * The first time at or after `start` at which the wall clock shows `minute`, on `date` or the next:
 * so "out before in" means the next day, except in an hour that is lived twice. Where the clock
 * began in an hour that was skipped, and so reads past an out that is no earlier than the in, the
 * time between the two by the clock is what passed.
 */
export function firstAtOrAfter(
  start: EpochMinute,
  wall: { readonly date: string; readonly minuteIn: number; readonly minute: number },
  clock: ZoneClock,
): EpochMinute {
  const sameDay = clock.instants(wall.date, wall.minute).find((at) => at >= start);
  if (sameDay !== undefined) return sameDay;
  if (wall.minute >= wall.minuteIn) return start + wall.minute - wall.minuteIn;
  return clock.instants(wall.date, wall.minute + 1440).find((at) => at >= start) ?? start;
}

/** Order of two texts by code unit, the same on every machine. */
export function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
