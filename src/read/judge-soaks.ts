import type { ClockChanges } from './clock-changes.ts';
import { judgeTwin } from './judge-twins.ts';
import * as say from './messages-checks.ts';
import type { RowCells } from './row-cells.ts';
import type { SoakRow, TripRow } from './rows.ts';
import type { TripIndex } from './trip-index.ts';
import { minuteInTrip, tripHours, tripWindow } from './trip-window.ts';
import { TwinRows } from './twin-rows.ts';

/** Hours by which a soak may be longer than its trip before it cannot be true. */
const LONGER_BY = 1;
/** Logged and clock hours may differ by a quarter hour of rounding. */
const HOURS_APART = 0.25;
/** Without the trip's hours: a soak that runs through this much of the day has its times swapped. */
const LONGEST_SOAK = 18;

/**
 * Judges soaks beside their trip: the same row twice, times that run backwards, soaks outside or
 * longer than the trip, times in a clock change.
 */
export function soakJudge(cells: RowCells, trips: TripIndex, changes: ClockChanges) {
  const twins = new TwinRows<SoakRow>();
  return (row: SoakRow, texts: readonly string[]): SoakRow => {
    const twin = twins.find(row, texts);
    if (twin !== null) judgeTwin(cells, twin.line, row.time_in !== null);
    const trip = trips.get(row.trip_id);
    if (trip === undefined) return row;
    return judgeHours(judgeTimes(row, trip, { cells, changes }), trip, cells);
  };
}

function judgeTimes(
  row: SoakRow,
  trip: TripRow,
  { cells, changes }: { cells: RowCells; changes: ClockChanges },
): SoakRow {
  const { time_in: timeIn, time_out: timeOut } = row;
  if (timeIn === null || timeOut === null) {
    const isHalf = (timeIn === null) !== (timeOut === null) && row.hours === null;
    const lacking = timeIn === null ? 'time_in' : 'time_out';
    if (isHalf && !cells.isNoted(lacking)) cells.warn(lacking, say.soakHalfTimed(lacking));
    return row;
  }
  const window = tripWindow(trip);
  const from = window === null ? timeIn : minuteInTrip(timeIn, window);
  const back = from + timeOut - timeIn;
  const to = back < from && !changes.cameAgain(trip.date, from, back) ? back + 1440 : back;
  const hours = (to - from) / 60;
  const longest = window === null ? LONGEST_SOAK : (window.to - window.from) / 60 + LONGER_BY;
  if (hours === 0) cells.warn('time_out', say.soakOfNoLength());
  if (to !== back && hours > longest) {
    cells.warn('time_out', say.soakBackwards(timeIn, timeOut, hours));
    return { ...row, time_out: null };
  }
  for (const [column, minute] of [
    ['time_in', from],
    ['time_out', to],
  ] as const) {
    const message = changes.check(column, trip.date, minute);
    if (message !== null) cells.warn(column, message);
  }
  if (window !== null && (from < window.from || to > window.to)) {
    cells.warn('time_in', say.soakOutsideTrip(from, to, trip));
  }
  if (row.hours !== null && Math.abs(row.hours - hours) > HOURS_APART && !changes.near(trip.date)) {
    cells.warn('hours', say.hoursDisagree('hours', row.hours, hours));
  }
  return row;
}

function judgeHours(row: SoakRow, trip: TripRow, cells: RowCells): SoakRow {
  const most = tripHours(trip);
  const isByClock = row.time_in !== null && row.time_out !== null;
  if (isByClock || row.hours === null || most === null || row.hours <= most + LONGER_BY) return row;
  cells.warn('hours', say.soakLongerThanTrip(row.hours, most));
  return { ...row, hours: null };
}
