/** First trip of each band of line age. */
const FIRST_TRIPS = [1, 6, 11, 16, 21];

/** The bands of line age, young to old, counted in trips on the line, this one included. */
export const LINE_AGE_BANDS = FIRST_TRIPS.map((first, at) => bandLabel(first, FIRST_TRIPS[at + 1]));

/** The band of a line that is on its n-th trip: `1-5 trips`, …, `21 trips or more`. */
export function lineAgeBand(trips: number): string {
  const at = FIRST_TRIPS.findLastIndex((first) => trips >= first);
  return LINE_AGE_BANDS[Math.max(0, at)] ?? '';
}

function bandLabel(first: number, next: number | undefined): string {
  return next === undefined ? `${first} trips or more` : `${first}-${next - 1} trips`;
}
