import { wholePiece } from '../tally/effort-pieces.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { Question } from '../tally/question.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';

/** Which part of a log is looked at. */
export type AskedPart = Pick<Question, 'only' | 'from' | 'to'>;

/** The bites of a part of the log, in file order: within its dates and at the levels it keeps. */
export function askedBites(season: TidySeason, part: AskedPart): TidyBite[] {
  const filters = Object.entries(part.only) as [FactorName, readonly string[]][];
  return season.bites.filter(
    (bite) =>
      isBetween(bite.trip, part) &&
      filters.every(([name, kept]) =>
        kept.includes(String(factorOf(name).ofBite(bite) ?? NOT_RECORDED)),
      ),
  );
}

/**
 * The trips of a part of the log, in time, whether or not they had a bite. Only what is one level a
 * trip (ground, month, wind, …) can leave a trip out; see `cutsTrips` for the rest.
 */
export function askedTrips(season: TidySeason, part: AskedPart): TidyTrip[] {
  const filters = Object.entries(part.only) as [FactorName, readonly string[]][];
  return season.trips.filter((trip) => {
    if (!isBetween(trip, part)) return false;
    const piece = wholePiece({
      trip,
      soak: null,
      position: null,
      lineHours: 0,
      start: null,
      end: null,
    });
    return filters.every(([name, kept]) => {
      const { scope, ofEffort } = factorOf(name);
      return scope !== 'trip' || kept.includes(String(ofEffort(piece) ?? NOT_RECORDED));
    });
  });
}

/** The filters that take a part of a trip and leave the rest, such as one bait; none: whole trips. */
export function cutsTrips({ only }: AskedPart): readonly FactorName[] {
  return (Object.keys(only) as FactorName[]).filter((name) => factorOf(name).scope !== 'trip');
}

function isBetween({ date }: TidyTrip, { from, to }: AskedPart): boolean {
  return (from === null || date >= from) && (to === null || date <= to);
}
