import { groupBy } from '../base/group-by.ts';
import type { SpoolRow } from '../read/rows.ts';
import { compare } from './tidy-trips.ts';

/** How much the line on a rod has been through since it was last filled. */
export interface LineAge {
  readonly spool: SpoolRow;
  readonly days: number;
  /** Trips on which the rod was used, this one included. */
  readonly trips: number;
  /** Line-hours up to this moment. */
  readonly lineHours: number;
  /** Hooked fish so far; at a hooked bite the fish itself is counted. */
  readonly fights: number;
}

/** The fillings of every rod's reel, looked up by day. */
export interface SpoolHistory {
  /** The latest filling of a rod on or before a date; null before the first, or without a rod. */
  on(rod: string | null, date: string): SpoolRow | null;
  /** All fillings of all rods, by rod and date. */
  readonly all: readonly SpoolRow[];
}

/** A spool row holds from the start of its date; of two on one day the later row holds. */
export function spoolHistory(rows: readonly SpoolRow[]): SpoolHistory {
  const all = [...rows].sort(
    (a, b) => compare(a.rod, b.rod) || compare(a.date, b.date) || a.line - b.line,
  );
  const byRod = groupBy(all, (row) => row.rod);
  return {
    all,
    on(rod, date) {
      if (rod === null) return null;
      return byRod.get(rod)?.findLast((row) => row.date <= date) ?? null;
    },
  };
}
