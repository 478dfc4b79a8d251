import { groupBy } from '../base/group-by.ts';
import { cellAt, cellKey, GRID_SIZES, type GridCell, type GridSize } from './cwp-grid.ts';
import type { ShareTrip } from './share-trip.ts';

/** How finely a trip's time is told. */
export const TRIP_TIMES = ['week', 'month', 'quarter'] as const;
/** One of them. */
export type TripTime = (typeof TRIP_TIMES)[number];

/** How much is told of each trip's time, place and weather. */
export interface TripDetail {
  readonly time: TripTime;
  readonly gridDeg: GridSize;
  readonly withWind: boolean;
}

/** Wind in three groups of the Beaufort scale. */
export const WIND_GROUPS = ['F0-3', 'F4-5', 'F6-12'] as const;
/** One of the groups. */
export type WindGroup = (typeof WIND_GROUPS)[number];

/** Trips that nobody can tell apart by time, place, and weather. */
export interface TripClass {
  readonly trips: readonly ShareTrip[];
  /** How many different sizes of catch are among them. */
  readonly diversity: number;
}

/** The group of a Beaufort force; null where the wind is not recorded. */
export function windGroup(force: number | null): WindGroup | null {
  if (force === null) return null;
  return force <= 3 ? 'F0-3' : force <= 5 ? 'F4-5' : 'F6-12';
}

/** The cell of a trip that has a place. */
export function tripCell(trip: ShareTrip, gridDeg: GridSize): GridCell {
  return cellAt(trip.lat ?? 0, trip.lon ?? 0, gridDeg);
}

/** The trip's week, month or quarter as one text. */
export function tripTimeText(trip: ShareTrip, time: TripTime): string {
  if (time === 'week') return trip.week;
  if (time === 'month') return trip.month;
  const [year, month] = trip.month.split('-');
  return `${year}-Q${Math.ceil(Number(month) / 3)}`;
}

/**
 * Trips in classes alike in all that could point to one of them: time, cell and wind.
 * Source: Sweeney 2002 (k-anonymity); Machanavajjhala et al. 2007 (distinct l-diversity) on the size
 * of the catch, which is what somebody looking for the big day is after.
 */
export function tripClasses(trips: readonly ShareTrip[], detail: TripDetail): TripClass[] {
  const alike = (trip: ShareTrip) =>
    [
      tripTimeText(trip, detail.time),
      cellKey(tripCell(trip, detail.gridDeg)),
      detail.withWind ? windGroup(trip.windForce) : '',
    ].join();
  return [...groupBy(trips, alike).values()].map((own) => ({
    trips: own,
    diversity: new Set(own.map((trip) => catchSize(trip.bites - trip.missed))).size,
  }));
}

/** Details from the one asked for to the coarsest there is, each step telling a little less. */
export function coarserDetails(asked: TripDetail): TripDetail[] {
  const times = TRIP_TIMES.slice(TRIP_TIMES.indexOf(asked.time));
  const sizes = GRID_SIZES.filter((size) => size >= asked.gridDeg && size <= 5);
  const winds = asked.withWind ? [true, false] : [false];
  return times.flatMap((time) =>
    sizes.flatMap((gridDeg) => winds.map((withWind) => ({ time, gridDeg, withWind }))),
  );
}

/** Hooked fish of a trip in five sizes: none, 1–2, 3–5, 6–10, more. Ours. */
function catchSize(hooked: number): number {
  return [0, 2, 5, 10].filter((most) => hooked > most).length;
}
