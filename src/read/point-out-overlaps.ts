import { clockText, soaksOverlap } from './messages-checks.ts';
import type { ReadTable } from './read-file.ts';
import type { SoakRow } from './rows.ts';
import type { TripIndex } from './trip-index.ts';
import { minuteInTrip, tripWindow } from './trip-window.ts';

interface Timed {
  readonly row: SoakRow;
  readonly from: number;
  readonly to: number;
}

/**
 * Warns about two soaks of one rod, or of one position, that are in the water at the same time on
 * one trip. Soaks that meet in one minute do not overlap.
 */
export function pointOutOverlaps({ rows, ledger }: ReadTable<SoakRow>, trips: TripIndex): void {
  for (const column of ['rod', 'position'] as const) {
    const groups = new Map<string, Timed[]>();
    for (const row of rows) {
      const timed = row[column] === null ? null : timedSoak(row, trips);
      if (timed === null) continue;
      const key = `${row.trip_id}\n${row[column]}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [timed]);
      else group.push(timed);
    }
    for (const group of groups.values()) {
      for (const { row, line } of overlapping(group)) {
        const received = `${clockText(row.time_in ?? 0)} to ${clockText(row.time_out ?? 0)}`;
        const place = { line: row.line, column, received };
        ledger.note('warned', place, soaksOverlap(column, row[column] ?? '', line));
      }
    }
  }
}

/** Each soak that begins before an earlier one has ended, with the line of that one. */
function* overlapping(group: Timed[]): Generator<{ row: SoakRow; line: number }> {
  group.sort((a, b) => a.from - b.from || a.row.line - b.row.line);
  let latest: Timed | null = null;
  for (const timed of group) {
    if (latest !== null && timed.from < latest.to) yield { row: timed.row, line: latest.row.line };
    if (latest === null || timed.to > latest.to) latest = timed;
  }
}

function timedSoak(row: SoakRow, trips: TripIndex): Timed | null {
  const trip = trips.get(row.trip_id);
  if (trip === undefined || row.time_in === null || row.time_out === null) return null;
  const window = tripWindow(trip);
  const from = window === null ? row.time_in : minuteInTrip(row.time_in, window);
  return { row, from, to: from + ((row.time_out - row.time_in + 1440) % 1440) };
}
