import { plural } from '../base/words.ts';
import type { Comparison } from '../estimate/comparison.ts';
import { type Lens, refuseLens } from '../estimate/lens.ts';
import { lensAsLogged } from '../estimate/lens-as-logged.ts';
import { lensSameDay } from '../estimate/lens-same-day.ts';
import type { TripPair } from '../estimate/level-pairs.ts';
import type { PlanDesign } from '../estimate/plan-design.ts';
import { type Departure, type FollowedPlan, followedPlan } from '../estimate/plan-followed.ts';
import { wholeTrips } from '../estimate/plan-strata.ts';
import { type TripMade, type TripMissing, tripsMade } from '../estimate/plan-trips-made.ts';
import { borrowedCorrelation, isProportion } from '../estimate/proportion.ts';
import { seasonCourse } from '../estimate/season-course.ts';
import type { ReadSchedule } from '../read/read-schedule.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { AnsweredComparison, ComparisonQuestion } from './answer-comparison.ts';
import { type ComparisonWords, compareSentence, comparisonWords } from './compare-sentence.ts';
import { type SoFar, type ToSettle, toSettle } from './to-settle.ts';
import { type Verdict, verdictOf } from './verdict.ts';

/** A comparison that was planned, judged as the lot had it. */
export interface PlannedAnswer extends AnsweredComparison {
  readonly planned: PlanKept;
}

/** How the plan was kept. */
export interface PlanKept {
  readonly design: PlanDesign;
  readonly tripsPlanned: number;
  /** Trips of the schedule that are in the log. */
  readonly tripsMade: number;
  /** Trips of the schedule that say nothing of a date yet. */
  readonly tripsOpen: number;
  readonly missing: readonly TripMissing[];
  /** Trips of the log between the first and the last of these that are not in the schedule. */
  readonly tripsBeside: number;
  readonly departures: readonly Departure[];
  /** Bites on the lines of the schedule. */
  readonly bites: number;
  readonly bitesWithoutPlace: number;
  readonly bitesWithoutLevel: number;
  /** The same lines and trips by what was fished. */
  readonly asFished: Lens;
}

const NOTHING_TO_ADJUST =
  'The lot shared everything else out evenly but for chance, so nothing has to be held equal.';

/**
 * Answers a comparison by its schedule. The verdict rests on the same-day lens as randomised: each
 * line counts for what it was to fish, whatever it fished, because lines that were changed on the
 * day were changed for a reason. Beside it stands the same as fished.
 * Source: analysis as randomised: ICH E9, 1998, §5.2, from memory.
 */
export function plannedComparison(
  season: TidySeason,
  question: ComparisonQuestion & { readonly levels: readonly [string, string] },
  plan: ReadSchedule & { readonly design: PlanDesign },
): PlannedAnswer {
  const { factor, measure, level, levels } = question;
  const contrast = { factor, measure, levels };
  const { made, missing, open } = tripsMade(plan.trips, season.trips);
  const followed = followedPlan(season, contrast, { request: question, design: plan.design, made });
  const correlation = isProportion(measure)
    ? borrowedCorrelation(measure, wholeTrips(season, question))
    : null;
  const sameDay = (pairs: readonly TripPair[]) =>
    lensSameDay(pairs, measure, { level, correlation });
  const { asRandomised, asFished } = followed;
  const asLogged = lensAsLogged(asFished, measure, { level, correlation });
  const comparison: Comparison = {
    ...contrast,
    level,
    lenses: {
      as_logged: asLogged,
      same_day: sameDay(asRandomised),
      adjusted: refuseLens(
        { ...asLogged, name: 'adjusted', method: 'adjusted' },
        NOTHING_TO_ADJUST,
      ),
    },
    crossTables: [],
    tied: [],
    season: seasonCourse(asRandomised, season, { measure, level }),
  };
  const verdict = verdictOnSameDay(comparison, season);
  const settle =
    verdict.word === 'open' ? toSettle(comparison, verdict, soFar(followed, made.length)) : null;
  const words = plannedWords(comparison, { verdict, settle, design: plan.design });
  return {
    comparison,
    verdict,
    settle,
    words,
    sentence: compareSentence(words),
    planned: {
      design: plan.design,
      tripsPlanned: plan.trips.length,
      tripsMade: made.length,
      tripsOpen: open,
      missing,
      tripsBeside: besides(season, made),
      departures: followed.departures,
      bites: followed.bites,
      bitesWithoutPlace: followed.bitesWithoutPlace,
      bitesWithoutLevel: followed.bitesWithoutLevel,
      asFished: sameDay(asFished),
    },
  };
}

function besides({ trips }: TidySeason, made: readonly TripMade[]): number {
  const orders = new Set(made.map(({ trip }) => trip.order));
  const [first, last] = [made[0]?.trip.order ?? 0, made.at(-1)?.trip.order ?? -1];
  return trips.filter(({ order }) => order >= first && order <= last && !orders.has(order)).length;
}

/** No other lens takes the place of the one that was planned: until it stands, all is open. */
function verdictOnSameDay(comparison: Comparison, { log }: TidySeason): Verdict {
  const verdict = verdictOf(comparison, log.settings);
  if (comparison.lenses.same_day.refused === null) return verdict;
  return { ...verdict, word: 'open', primary: null, isDifference: false };
}

function soFar({ asRandomised, bites }: FollowedPlan, trips: number): SoFar {
  return {
    unitsA: asRandomised.reduce((sum, pair) => sum + pair.n1, 0),
    unitsB: asRandomised.reduce((sum, pair) => sum + pair.n2, 0),
    bites,
    trips,
  };
}

function plannedWords(
  comparison: Comparison,
  {
    verdict,
    settle,
    design,
  }: { readonly verdict: Verdict; readonly settle: ToSettle | null; readonly design: PlanDesign },
): ComparisonWords {
  const { refused, trips } = comparison.lenses.same_day;
  if (refused !== null) {
    const reason = design === 'sides' ? refused : 'It takes two pairs of trips or more.';
    const answer = `The plan has nothing to say yet: ${reason}`;
    return { answer, next: 'Go on with the schedule.', basis: null };
  }
  const stratum = design === 'sides' ? 'trip' : 'pair of trips';
  const strata = plural(trips, stratum, design === 'sides' ? 'trips' : 'pairs of trips');
  const basis = `Judged as the lot had it, on the ${strata} of the schedule that fished both.`;
  return { ...comparisonWords(comparison, verdict, settle), basis };
}
