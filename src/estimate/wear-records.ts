import type { SpoolRow } from '../read/rows.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { Question } from '../tally/question.ts';
import type { LineAge } from '../tidy/spool-history.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';

/** A row of bites on a line of known age; in a log of single bites every count is 0 or 1. */
export interface WearBite {
  readonly spool: SpoolRow;
  readonly trip: TidyTrip;
  readonly age: LineAge;
  readonly bites: number;
  /** Hooked fish, each a fight; `age.fights` counts them all. */
  readonly fights: number;
  /** Fish lost because the line broke. */
  readonly breaks: number;
  /** Fish lost because the hook pulled. */
  readonly pulled: number;
  /** Whether its soak's line-hours are recorded, so that it may stand in a rate per line-hour. */
  readonly isOnHours: boolean;
}

/** Line-hours of one soak on a line of known age. */
export interface WearSoak {
  readonly spool: SpoolRow;
  readonly trip: TidyTrip;
  readonly age: LineAge;
  /** null: not recorded. */
  readonly lineHours: number | null;
}

/** What a log tells of wear: everything that came to lines whose filling is logged. */
export interface WearRecords {
  /** In the order of each line's life. */
  readonly bites: readonly WearBite[];
  readonly soaks: readonly WearSoak[];
  /** Hooked fish in all, and those on a line of known age. */
  readonly fights: { readonly all: number; readonly known: number };
  /** Fish lost on lines of known age, and those of which is known how. */
  readonly lost: { readonly all: number; readonly known: number };
}

/** The part of a log that wear can be asked for; a line's life cannot be cut down to a bait. */
export type WearFilter = Pick<Question, 'only' | 'from' | 'to'>;

const OF_A_LINE = ['line_type', 'line_class_lb', 'rod'] as const;

/** The factors in a filter that a line's life cannot be cut down to; none: wear can be asked for. */
export function cutsLives(only: WearFilter['only']): readonly FactorName[] {
  return (Object.keys(only) as FactorName[]).filter(
    (name) => !OF_A_LINE.some((cell) => cell === name),
  );
}

/**
 * Bites and soaks on lines of known age, within the dates and on the spools asked for. Line type is
 * the spool's own. Filters by anything but the spool are not looked at; see `cutsLives`.
 */
export function wearRecords(season: TidySeason, filter: WearFilter): WearRecords {
  const isAsked = tripFilter(filter);
  const asked = season.bites.filter((bite) => isAsked(bite.trip));
  const bites = asked
    .flatMap((bite) => wearBite(bite, season))
    .filter(({ spool }) => isLineAsked(spool, filter))
    .sort((a, b) => a.trip.order - b.trip.order || a.age.fights - b.age.fights);
  const soaks = (season.soaks ?? []).flatMap(({ trip, lineAge, lineHours }): WearSoak[] =>
    lineAge === null || !isAsked(trip) || !isLineAsked(lineAge.spool, filter)
      ? []
      : [{ spool: lineAge.spool, trip, age: lineAge, lineHours }],
  );
  const hooked = asked.filter(
    (bite) => bite.outcome !== 'missed' && isLineAsked(bite.lineAge?.spool ?? bite, filter),
  );
  const lost = hooked.filter((bite) => bite.outcome === 'lost' && bite.lineAge !== null);
  return {
    bites,
    soaks,
    fights: { all: countOf(hooked), known: bites.reduce((sum, bite) => sum + bite.fights, 0) },
    lost: { all: countOf(lost), known: countOf(lost.filter((bite) => bite.lost_to !== null)) },
  };
}

function wearBite(bite: TidyBite, season: TidySeason): WearBite[] {
  const { lineAge, outcome, count, lost_to, trip } = bite;
  if (lineAge === null) return [];
  const soak = bite.soak === null ? undefined : season.soaks?.[bite.soak];
  const lostTo = (way: typeof lost_to) => (outcome === 'lost' && lost_to === way ? count : 0);
  return [
    {
      spool: lineAge.spool,
      trip,
      age: lineAge,
      bites: count,
      fights: outcome === 'missed' ? 0 : count,
      breaks: lostTo('line_broke'),
      pulled: lostTo('pulled'),
      isOnHours: soak !== undefined && soak.lineHours !== null && soak.lineAge !== null,
    },
  ];
}

function tripFilter({ from, to }: WearFilter): (trip: TidyTrip) => boolean {
  return ({ date }) => (from === null || date >= from) && (to === null || date <= to);
}

/** What a filter looks at: a spool, or a bite whose spool is not known. */
type Line = { readonly [Cell in 'line_type' | 'line_class_lb' | 'rod']: string | number | null };

function isLineAsked(line: Line, { only }: WearFilter): boolean {
  return OF_A_LINE.every((name) => {
    const kept = only[name];
    return kept === undefined || kept.includes(String(line[name] ?? NOT_RECORDED));
  });
}

function countOf(bites: readonly TidyBite[]): number {
  return bites.reduce((sum, bite) => sum + bite.count, 0);
}
