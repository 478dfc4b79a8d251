import type { TripRow } from './rows.ts';

const DAY = 1440;

/**
 * The stretch of wall-clock minutes, counted from the midnight that begins the trip's date, in
 * which a trip fished; null where lines in or lines out were not logged. Out before in is the next
 * day.
 */
export function tripWindow(trip: TripRow): { readonly from: number; readonly to: number } | null {
  const { lines_in: from, lines_out: out } = trip;
  if (from === null || out === null) return null;
  return { from, to: out < from ? out + DAY : out };
}

/** Hours that a trip fished by its clock, else as logged; null where neither is recorded. */
export function tripHours(trip: TripRow): number | null {
  const window = tripWindow(trip);
  return window === null ? trip.hours_fished : (window.to - window.from) / 60;
}

/**
 * A clock time placed in a trip's day or the night after it, whichever lies nearer to the hours the
 * trip fished; minutes from the midnight that begins the trip's date.
 */
export function minuteInTrip(
  minute: number,
  window: { readonly from: number; readonly to: number },
) {
  const outside = (at: number) => Math.max(window.from - at, at - window.to, 0);
  return outside(minute + DAY) < outside(minute) ? minute + DAY : minute;
}
