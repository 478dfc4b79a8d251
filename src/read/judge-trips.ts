import type { ClockChanges } from './clock-changes.ts';
import { judgeTwin } from './judge-twins.ts';
import { hoursDisagree, tripOfNoLength, tripVeryLong } from './messages-checks.ts';
import { tripIdTwice } from './messages-trips.ts';
import type { RowCells } from './row-cells.ts';
import type { TripRow } from './rows.ts';
import { tripWindow } from './trip-window.ts';
import { TwinRows } from './twin-rows.ts';

/** Nights longer than this are likelier a time of the afternoon without its pm. */
const LONG_NIGHT_HOURS = 16;
/** Logged and clock hours may differ by a quarter hour of rounding. */
const HOURS_APART = 0.25;

/**
 * Judges trips: a number may stand once, and the row that stands first is the trip; times that make
 * no length, differ from the logged hours or fall into a clock change are pointed out.
 */
export function tripJudge(cells: RowCells, changes: ClockChanges) {
  const known = new Map<string, TripRow>();
  const twins = new TwinRows<TripRow>();
  return (row: TripRow, texts: readonly string[]): TripRow => {
    const twin = twins.find(row, texts);
    const earlier = known.get(row.trip_id);
    if (twin !== null) judgeTwin(cells, twin.line, true);
    else if (earlier !== undefined) {
      cells.setAside('trip_id', row.trip_id, tripIdTwice(row.trip_id, earlier.line));
    } else known.set(row.trip_id, row);
    return judgeTimes(row, cells, changes);
  };
}

function judgeTimes(row: TripRow, cells: RowCells, changes: ClockChanges): TripRow {
  for (const column of ['lines_in', 'lines_out'] as const) {
    const minute = row[column];
    if (minute === null) continue;
    const isNextDay = column === 'lines_out' && row.lines_in !== null && minute < row.lines_in;
    const message = changes.check(column, row.date, isNextDay ? minute + 1440 : minute);
    if (message !== null) cells.warn(column, message);
  }
  const window = tripWindow(row);
  if (window === null) return row;
  if (window.from === window.to) {
    cells.warn('lines_out', tripOfNoLength());
    return { ...row, lines_out: null };
  }
  const hours = (window.to - window.from) / 60;
  if (window.to >= 1440 && hours > LONG_NIGHT_HOURS) {
    cells.warn('lines_out', tripVeryLong(row.lines_out ?? 0, hours));
  }
  // A clock change makes a trip an hour longer or shorter than its wall clock says.
  const apart = row.hours_fished === null ? 0 : Math.abs(row.hours_fished - hours);
  if (row.hours_fished !== null && apart > HOURS_APART && !changes.near(row.date)) {
    cells.warn('hours_fished', hoursDisagree('hours_fished', row.hours_fished, hours));
  }
  return row;
}
