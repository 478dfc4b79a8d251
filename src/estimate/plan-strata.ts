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
  /**
   * How much each stratum tells, 0 where nothing: n₁n₂/(n₁ + n₂) bites; for a rate the events that
   * fall on so many line-hours, as line-hours at the mean rate, for a wild day weighs more.
   */
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
  if (pairs.some(({ n1, n2 }) => n1 > 0 && n2 > 0) && knowsPlaces(season, question, rows))
    return { from: 'sides', pairs, weights: weightsOf(pairs, question.measure) };
  return { from: 'even', pairs: [], weights: evenWeights(season, question) };
}

/** Whether half or more of what counts has a position of the spread. */
function knowsPlaces(
  { log }: TidySeason,
  { measure }: PlanQuestion,
  rows: readonly TallyRow[],
): boolean {
  const names = new Set(log.settings.positions.map(({ name }) => name));
  const known = rows.filter((row) => row.position !== undefined && names.has(row.position));
  return 2 * totals(known, measure).units >= totals(rows, measure).units;
}

/** Trips paired with the next, as two trips of a plan would be; a last odd one is left out. */
export function strataOfNeighbours(season: TidySeason, question: PlanQuestion): PlanStrata {
  const trips = planTrips(season, question);
  const byTrip = groupBy(wholeTrips(season, question), (row) => row.trip_id);
  const rowsOf = (trip: TidyTrip | undefined) => byTrip.get(trip?.trip_id ?? '') ?? [];
  const pairs = Array.from({ length: Math.floor(trips.length / 2) }, (_, at) =>
    pairOf(rowsOf(trips[2 * at]), rowsOf(trips[2 * at + 1]), question.measure),
  );
  return { from: 'neighbours', pairs, weights: weightsOf(pairs, question.measure) };
}

/** Tallies of whole trips, one row a trip. */
export function wholeTrips(season: TidySeason, question: PlanQuestion): readonly TallyRow[] {
  return talliedGroups(season, { ...question, by: [] }).flatMap((group) => group.rows);
}

/**
 * Half of n bites on each side by chance gives (n − 1)/4 on average, which is n₁n₂/(n₁ + n₂) of a
 * binomial split; line-hours are shared out evenly by whoever sets the lines.
 */
function evenWeights(season: TidySeason, question: PlanQuestion): number[] {
  const { measure } = question;
  const whole = wholeTrips(season, question);
  const counts = new Map(whole.map((row) => [row.trip_id, eventsAndUnits(row, measure)]));
  const rate = totals(whole, measure);
  return planTrips(season, question).map(({ trip_id }) => {
    const { events = 0, units = 0 } = counts.get(trip_id) ?? {};
    if (isProportion(measure)) return Math.max(0, units - 1) / 4;
    return rate.events === 0 ? 0 : (events * (rate.units / rate.events)) / 4;
  });
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

function weightsOf(pairs: readonly ClusterPair[], measure: Measure): number[] {
  if (isProportion(measure))
    return pairs.map(({ n1, n2 }) => (n1 > 0 && n2 > 0 ? n1 * (n2 / (n1 + n2)) : 0));
  const both = pairs.filter(({ n1, n2 }) => n1 > 0 && n2 > 0);
  const sum = (of: (pair: ClusterPair) => number) => both.reduce((so, pair) => so + of(pair), 0);
  const events = sum(({ x1, x2 }) => x1 + x2);
  const hours = sum(({ n1, n2 }) => n1 + n2);
  return pairs.map(({ x1, n1, x2, n2 }) => {
    if (n1 === 0 || n2 === 0 || events === 0) return 0;
    return ((x1 * n2 + x2 * n1) / (n1 + n2) / 2) * (hours / events);
  });
}
