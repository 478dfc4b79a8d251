import { type EpochMinute, nextDate, type ZoneClock } from '../base/zone.ts';
import type { SoakRow } from '../read/rows.ts';
import type { Reach, Side } from '../settings/settings.ts';
import { instantsOnTrip } from './place-in-trip.ts';
import type { positionLookup } from './positions.ts';
import type { SpoolHistory } from './spool-history.ts';
import { firstAtOrAfter, type TidyTrip } from './tidy-trips.ts';

/** Where a filled cell came from: its own row, the soak, or the spool on the rod that day. */
export type Provenance = 'logged' | 'soak' | 'spool';

/** A line in the water with one bait, placed in real time; fights are not yet taken off. */
export interface PlacedSoak extends SoakRow {
  readonly trip: TidyTrip;
  readonly start: EpochMinute | null;
  readonly end: EpochMinute | null;
  /** Hours from time in to time out by real time, else `hours`; null: not recorded. */
  readonly grossHours: number | null;
  readonly side: Side | null;
  readonly reach: Reach | null;
  /** Source of `line_type`; null where it is not recorded. */
  readonly line_type_from: Provenance | null;
  readonly line_class_from: Provenance | null;
}

/** What the joins need to know of the season. */
export interface JoinContext {
  readonly clock: ZoneClock;
  readonly trips: ReadonlyMap<string, TidyTrip>;
  readonly positionOf: ReturnType<typeof positionLookup>;
  readonly spools: SpoolHistory;
}

/**
 * One row per soak whose trip is known, in file order. A missing line type or class is taken from
 * the spool on the soak's rod that day.
 */
export function placeSoaks(rows: readonly SoakRow[], context: JoinContext): PlacedSoak[] {
  return rows.flatMap((row) => {
    const trip = context.trips.get(row.trip_id);
    return trip === undefined ? [] : [placeSoak(row, trip, context)];
  });
}

function placeSoak(row: SoakRow, trip: TidyTrip, context: JoinContext): PlacedSoak {
  const window = soakWindow(row, trip, context.clock);
  const spool = context.spools.on(row.rod, trip.date);
  const lineType = row.line_type ?? spool?.line_type ?? null;
  const lineClass = row.line_class_lb ?? spool?.line_class_lb ?? null;
  return {
    ...row,
    ...context.positionOf(row.position),
    trip,
    start: window?.start ?? null,
    end: window?.end ?? null,
    grossHours: window === null ? row.hours : (window.end - window.start) / 60,
    line_type: lineType,
    line_type_from: lineType === null ? null : row.line_type === null ? 'spool' : 'logged',
    line_class_lb: lineClass,
    line_class_from: lineClass === null ? null : row.line_class_lb === null ? 'spool' : 'logged',
  };
}

function soakWindow(
  row: SoakRow,
  trip: TidyTrip,
  clock: ZoneClock,
): { readonly start: EpochMinute; readonly end: EpochMinute } | null {
  if (row.time_in === null || row.time_out === null) return null;
  const [start] = instantsOnTrip(trip, row.time_in, clock);
  const isNextDay = start >= clock.instants(trip.date, row.time_in + 1440)[0];
  const date = isNextDay ? nextDate(trip.date) : trip.date;
  return {
    start,
    end: firstAtOrAfter(start, { date, minuteIn: row.time_in, minute: row.time_out }, clock),
  };
}
