import { dateOfDay, dayNumber } from '../base/zone.ts';
import type { SchemaRow } from './pool-table.ts';

/** The months that rows cover, as `2025-03`; a week covers the months of its first and last day. */
export function monthsCovered(rows: readonly SchemaRow[]): ReadonlySet<string> {
  return new Set(rows.flatMap(monthsOf));
}

function monthsOf({ year, month, months, week }: SchemaRow): string[] {
  const y = Number(year);
  if (week != null) {
    const monday = mondayOf(y, Number(week));
    return [monday, monday + 6].map((day) => dateOfDay(day).slice(0, 7));
  }
  return Array.from({ length: Number(months ?? 1) }, (_, at) => {
    return `${y}-${String(Number(month) + at).padStart(2, '0')}`;
  });
}

/** The day number of a week's Monday; 4 January lies in week 1. Source: ISO 8601-1:2019, 3.1.1.23. */
function mondayOf(year: number, week: number): number {
  const fourth = dayNumber(`${year}-01-04`);
  // Day 0, 1970-01-01, was a Thursday: (day + 3) mod 7 counts from Monday.
  return fourth - ((fourth + 3) % 7) + 7 * (week - 1);
}
