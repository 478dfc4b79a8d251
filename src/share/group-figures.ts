import { type Fates, NO_FATES, type ShareTrip } from './share-trip.ts';
import { vesselCount } from './thresholds.ts';

/** The sums over a group of trips, as they stand in a row. */
export interface GroupFigures {
  readonly trips: number;
  readonly vessels: number;
  /** Boat-hours fished, to a tenth; null where one of the trips has none recorded. */
  readonly hours: number | null;
  /** To a tenth; null where one of the trips has none recorded. */
  readonly lineHours: number | null;
  readonly bites: number;
  readonly missed: number;
  readonly kept: number;
  readonly released: number;
  readonly lost: number;
}

/** Sums over trips; hooked = kept + released + lost, bites = missed + hooked. */
export function groupFigures(trips: readonly ShareTrip[]): GroupFigures {
  const fates = [...catchBySpecies(trips).values()];
  return {
    trips: trips.length,
    vessels: vesselCount(trips),
    hours: hoursOf(trips.map((trip) => trip.hours)),
    lineHours: hoursOf(trips.map((trip) => trip.lineHours)),
    bites: total(trips.map((trip) => trip.bites)),
    missed: total(trips.map((trip) => trip.missed)),
    kept: total(fates.map((fate) => fate.kept)),
    released: total(fates.map((fate) => fate.released)),
    lost: total(fates.map((fate) => fate.lost)),
  };
}

/** Hooked fish by species code and fate, over trips. */
export function catchBySpecies(trips: readonly ShareTrip[]): ReadonlyMap<string, Fates> {
  const sums = new Map<string, Fates>();
  for (const trip of trips) {
    for (const [code, more] of trip.catches) {
      const sum = sums.get(code) ?? NO_FATES;
      sums.set(code, {
        kept: sum.kept + more.kept,
        released: sum.released + more.released,
        lost: sum.lost + more.lost,
      });
    }
  }
  return sums;
}

/**
 * Hours to a tenth: finer ones would tell trips apart and say nothing more about the fishing. An
 * unknown among them leaves the sum unknown, as a part would read as the whole.
 */
function hoursOf(hours: readonly (number | null)[]): number | null {
  const known = hours.filter((one) => one !== null);
  return known.length < hours.length ? null : Math.round(10 * total(known)) / 10;
}

function total(numbers: readonly number[]): number {
  return numbers.reduce((sum, one) => sum + one, 0);
}
