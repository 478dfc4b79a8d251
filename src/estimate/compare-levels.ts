import type { FactorName } from '../tally/factors.ts';
import type { Question } from '../tally/question.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { isSameThing } from './adjusted-rows.ts';
import type { Comparison } from './comparison.ts';
import { type DroppedCovariate, type Lens, refuseLens } from './lens.ts';
import { lensAdjusted } from './lens-adjusted.ts';
import { lensAsLogged } from './lens-as-logged.ts';
import { lensSameDay } from './lens-same-day.ts';
import { type Contrast, tripPairs } from './level-pairs.ts';
import { borrowedCorrelation, isProportion } from './proportion.ts';
import { talliedGroups } from './rates.ts';
import { seasonCourse } from './season-course.ts';
import { crossTable, isTied, tiedReason } from './tied-factors.ts';

/** How a comparison is to be made, beside what is compared. */
export interface CompareRequest extends Omit<Question, 'by'> {
  readonly adjust: readonly FactorName[];
  readonly level: number;
}

/** Two levels seen three ways, with the cross-tables that show whether they can be told apart. */
export function compareLevels(
  season: TidySeason,
  contrast: Contrast,
  request: CompareRequest,
): Comparison {
  const adjust = request.adjust.filter((name) => !isSameThing(contrast.factor, name));
  const rows = talliedGroups(season, { ...request, by: [contrast.factor, ...adjust] }).flatMap(
    (group) => group.rows,
  );
  // Held against covariates only in the adjusted lens: the others are the log's own rates.
  const plain = talliedGroups(season, { ...request, by: [contrast.factor] }).flatMap(
    (group) => group.rows,
  );
  const pairs = inTripOrder(tripPairs(plain, contrast), season);
  const { level } = request;
  const correlation = isProportion(contrast.measure)
    ? borrowedCorrelation(contrast.measure, wholeLog(season, request))
    : null;
  const crossTables = adjust.map((covariate) => crossTable(rows, contrast, covariate));
  const tied = crossTables.filter(isTied).map(({ covariate }) => ({
    covariate,
    reason: tiedReason(contrast, covariate),
  }));
  const adjusted = lensAdjusted(rows, contrast, { level, adjust });
  return {
    ...contrast,
    level,
    lenses: {
      as_logged: lensAsLogged(pairs, contrast.measure, { level, correlation }),
      same_day: lensSameDay(pairs, contrast.measure, { level, correlation }),
      adjusted: refuseTied(adjusted, tied),
    },
    crossTables,
    tied,
    season: seasonCourse(pairs, season, { measure: contrast.measure, level }),
  };
}

/** What is tied to the factor cannot be held equal, and without it nothing was adjusted for. */
function refuseTied(lens: Lens, tied: readonly DroppedCovariate[]): Lens {
  const [first] = tied;
  if (first === undefined) return lens;
  return { ...refuseLens(lens, first.reason), dropped: [...lens.dropped, ...tied] };
}

function wholeLog(season: TidySeason, request: CompareRequest) {
  return talliedGroups(season, { ...request, by: [] }).flatMap((group) => group.rows);
}

function inTripOrder<Pair extends { readonly trip_id: string }>(
  pairs: readonly Pair[],
  season: TidySeason,
): Pair[] {
  const order = new Map(season.trips.map((trip) => [trip.trip_id, trip.order]));
  return [...pairs].sort((a, b) => (order.get(a.trip_id) ?? 0) - (order.get(b.trip_id) ?? 0));
}
