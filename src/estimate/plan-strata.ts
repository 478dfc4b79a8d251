import { groupBy } from '../base/group-by.ts';
import type { ClusterPair } from '../stats/same-cluster-pairs.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import type { Measure } from '../tally/measures.ts';
import type { Question } from '../tally/question.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { eventsAndUnits } from './level-pairs.ts';
import type { PlanPlace } from './plan-places.ts';
import { isProportion } from './proportion.ts';
import { talliedGroups } from './rates.ts';

/** The part of the log a plan is made from, and what it will count. */
export interface PlanQuestion extends Omit<Question, 'by'> {
  readonly measure: Measure;
}

/**
 * The log's own trips laid out as the plan would have them, in the order of time: what a stratum of
 * the plan (a trip with two sides, or a pair of trips) would have brought.
 */
export interface PlanStrata {
  /**
   * `sides`: port and starboard as logged. `neighbours`: a trip and the next. `even`: the log does
   * not say the side, and each line of a trip is taken to be as likely on one as on the other.
   */
  readonly from: 'sides' | 'neighbours' | 'even';
  /** First and second half of each stratum; empty for `even`, where halves are not known. */
  readonly pairs: readonly ClusterPair[];
  /** How much each stratum tells, n₁n₂/(n₁ + n₂) in bites or line-hours; 0 where it tells nothing. */
  readonly weights: readonly number[];
}

/** Trips of the part of the log that is asked for, those without a bite among them. */
export function planTrips(season: TidySeason, question: PlanQuestion): readonly TidyTrip[] {
  const { from, to, only } = question;
  const inTime = season.trips.filter(
    ({ date }) => (from === null || date >= from) && (to === null || date <= to),
  );
  const narrowed = (Object.keys(only) as FactorName[]).some(
    (name) => factorOf(name).scope === 'trip',
  );
  if (!narrowed) return inTime;
  const met = new Set(wholeTrips(season, question).map((row) => row.trip_id));
  return inTime.filter(({ trip_id }) => met.has(trip_id));
}

/** Every trip with its two sides. */
export function strataOfSides(
  season: TidySeason,
  question: PlanQuestion,
  places: readonly PlanPlace[],
): PlanStrata {
  const trips = planTrips(season, question);
  const rows = talliedGroups(season, { ...question, by: ['position'] }).flatMap((g) => g.rows);
  const port = new Set(places.flatMap((place) => place.port));
  const starboard = new Set(places.flatMap((place) => place.starboard));
  const byTrip = groupBy(rows, (row) => row.trip_id);
  const pairs = trips.map(({ trip_id }) => {
    const ofTrip = byTrip.get(trip_id) ?? [];
    const on = (side: ReadonlySet<string>) =>
      ofTrip.filter((row) => row.position !== undefined && side.has(row.position));
    return pairOf(on(port), on(starboard), question.measure);
  });
  const whole = wholeTrips(season, question);
  const { units: all } = totals(whole, question.measure);
  const sided = pairs.reduce((sum, { n1, n2 }) => sum + n1 + n2, 0);
  if (sided > 0 && 2 * sided >= all) return { from: 'sides', pairs, weights: pairs.map(weightOf) };
  return { from: 'even', pairs: [], weights: evenWeights(trips, whole, question.measure) };
}

/** Trips paired with the next, as two trips of a plan would be; a last odd one is left out. */
export function strataOfNeighbours(season: TidySeason, question: PlanQuestion): PlanStrata {
  const trips = planTrips(season, question);
  const byTrip = groupBy(wholeTrips(season, question), (row) => row.trip_id);
  const rowsOf = (trip: TidyTrip | undefined) => byTrip.get(trip?.trip_id ?? '') ?? [];
  const pairs = Array.from({ length: Math.floor(trips.length / 2) }, (_, at) =>
    pairOf(rowsOf(trips[2 * at]), rowsOf(trips[2 * at + 1]), question.measure),
  );
  return { from: 'neighbours', pairs, weights: pairs.map(weightOf) };
}

/** Tallies of whole trips, one row a trip. */
export function wholeTrips(season: TidySeason, question: PlanQuestion): readonly TallyRow[] {
  return talliedGroups(season, { ...question, by: [] }).flatMap((group) => group.rows);
}

/**
 * Half of n bites on each side by chance gives (n − 1)/4 on average, which is n₁n₂/(n₁ + n₂) of a
 * binomial split; line-hours are shared out evenly by whoever sets the lines.
 */
function evenWeights(
  trips: readonly TidyTrip[],
  rows: readonly TallyRow[],
  measure: Measure,
): number[] {
  const units = new Map(rows.map((row) => [row.trip_id, eventsAndUnits(row, measure).units]));
  const apart = isProportion(measure) ? 1 : 0;
  return trips.map(({ trip_id }) => Math.max(0, (units.get(trip_id) ?? 0) - apart) / 4);
}

function pairOf(
  first: readonly TallyRow[],
  second: readonly TallyRow[],
  measure: Measure,
): ClusterPair {
  const [a, b] = [totals(first, measure), totals(second, measure)];
  return { x1: a.events, n1: a.units, x2: b.events, n2: b.units };
}

function totals(rows: readonly TallyRow[], measure: Measure) {
  let [events, units] = [0, 0];
  for (const row of rows) {
    const one = eventsAndUnits(row, measure);
    events += one.events;
    units += one.units;
  }
  return { events, units };
}

function weightOf({ n1, n2 }: ClusterPair): number {
  return n1 > 0 && n2 > 0 ? n1 * (n2 / (n1 + n2)) : 0;
}
