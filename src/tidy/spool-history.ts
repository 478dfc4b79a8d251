import { groupBy } from '../base/group-by.ts';
import type { SpoolRow } from '../read/rows.ts';
import { compare } from './tidy-trips.ts';

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
