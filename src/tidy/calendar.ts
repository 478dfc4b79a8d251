import { dateOfDay, dayNumber } from '../base/zone.ts';

/** `2026-03` for any day of March 2026. */
export function monthOf(date: string): string {
  return date.slice(0, 7);
}

/** ISO 8601 week, e.g. `2026-W01`; the week belongs to the year that holds its Thursday. */
export function weekOf(date: string): string {
  const day = dayNumber(date);
  // Day 0, 1970-01-01, was a Thursday: (day + 3) mod 7 counts from Monday.
  const thursday = day - ((((day + 3) % 7) + 7) % 7) + 3;
  const year = dateOfDay(thursday).slice(0, 4);
  const week = 1 + Math.floor((thursday - dayNumber(`${year}-01-01`)) / 7);
  return `${year}-W${String(week).padStart(2, '0')}`;
}
