import { type Estimate, type Refusal, refuse } from '../base/estimate.ts';
import { dayNumber } from '../base/zone.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type Contrast, eventsAndUnits, tripPairs } from './level-pairs.ts';
import { perLineHour } from './per-line-hour.ts';
import type { PlanDesign } from './plan-design.ts';
import type { PlanPlace } from './plan-places.ts';
import { type PlanSpread, planSpread } from './plan-spread.ts';
import {
  type PlanQuestion,
  type PlanStrata,
  planTrips,
  strataOfNeighbours,
  strataOfSides,
  wholeTrips,
} from './plan-strata.ts';
import { borrowedCorrelation, isProportion, proportionOf } from './proportion.ts';
import { talliedGroups } from './rates.ts';

/** What the log says that a plan needs to know. */
export interface PlanBasis {
  readonly kind: 'planned';
  readonly design: PlanDesign;
  /** The measure as the log has it, before anything is planned. */
  readonly base: Estimate & { readonly kind: 'estimated' };
  /** `levels`: from what A and B were fished so far. `log`: from everything. */
  readonly baseFrom: 'levels' | 'log';
  /** Levels that the log does not have yet. */
  readonly newLevels: readonly string[];
  /** How often the boat goes out. */
  readonly pace: PlanPace;
  readonly strata: PlanStrata;
  readonly spread: PlanSpread;
}

/** How often the boat goes out, and what a trip brings. */
export interface PlanPace {
  readonly trips: number;
  /** First to last trip, both included. */
  readonly days: number;
  readonly tripsPerWeek: number;
  /** Bites, hooked fish or line-hours that a trip brings to the comparison. */
  readonly unitsPerTrip: number;
  readonly bitesPerTrip: number;
  /** Trips with A or B, and those with both; 0 of 0 where neither is in the log. */
  readonly tripsWithEither: number;
  readonly tripsWithBoth: number;
}

/** What the basis is to be worked out for. */
export interface BasisRequest extends PlanQuestion, Omit<Contrast, 'measure'> {
  readonly design: PlanDesign;
  /** Where A and B are to be fished; empty for whole trips. */
  readonly places: readonly PlanPlace[];
  readonly level: number;
}

/** The basis of a plan, or why this log is too little to plan from and what to log first. */
export function planBasis(season: TidySeason, request: BasisRequest): PlanBasis | Refusal {
  const { design, factor, levels, measure, places } = request;
  const trips = planTrips(season, request);
  const whole = wholeTrips(season, request);
  const tooLittle = refusalOf(trips.length, whole, request);
  if (tooLittle !== null) return refuse(tooLittle);
  const ofLevels = talliedGroups(season, { ...request, by: [factor] }).flatMap(({ rows }) => rows);
  const met = new Set(ofLevels.map((row) => row[factor]));
  const newLevels = levels.filter((one) => !met.has(one));
  const pairs = tripPairs(ofLevels, { factor, levels, measure });
  const known = ofLevels.filter((row) => levels.includes(row[factor] ?? ''));
  const fromLevels = newLevels.length === 0 ? baseOf(known, whole, request) : null;
  const base = fromLevels ?? baseOf(whole, whole, request);
  if (base === null) return refuse(`Nothing varies in this log yet. ${LOG_FIRST}`);
  const strata =
    design === 'sides'
      ? strataOfSides(season, request, places)
      : strataOfNeighbours(season, request);
  if (!(sumOf(strata.weights) > 0)) return refuse(NOTHING_TWICE);
  return {
    kind: 'planned',
    design,
    base,
    baseFrom: fromLevels === null ? 'log' : 'levels',
    newLevels,
    pace: paceOf(trips, { whole, pairs, strata, request }),
    strata,
    spread: planSpread({ measure, design, levels: pairs, strata, whole }),
  };
}

const LOG_FIRST =
  'Log a few ordinary trips first: every bite with its position and its outcome, the missed ones ' +
  'too, and the lines in soaks.csv.';
const NOTHING_TWICE =
  'No trip of this log brought enough to set one side against the other, so nothing tells how many ' +
  `trips a comparison would take. ${LOG_FIRST}`;

function refusalOf(
  trips: number,
  whole: readonly TallyRow[],
  { measure }: BasisRequest,
): string | null {
  if (trips === 0) return `There is no trip to plan from. ${LOG_FIRST}`;
  if (trips === 1)
    return `There is one trip to plan from, and one trip cannot show how much trips differ. ${LOG_FIRST}`;
  const counts = whole.map((row) => eventsAndUnits(row, measure));
  const [events, units] = [sumOf(counts.map((c) => c.events)), sumOf(counts.map((c) => c.units))];
  const what = isProportion(measure) ? 'a bite that counts for it' : 'a line-hour';
  if (units === 0) return `There is not ${what} in this log yet. ${LOG_FIRST}`;
  if (events === 0) return `There is nothing of ${measure} in this log yet. ${LOG_FIRST}`;
  if (isProportion(measure) && events === units)
    return `So far every one of ${units} counted for ${measure}, so nothing tells how much it varies. ${LOG_FIRST}`;
  return null;
}

/** The measure over some rows; null where it is all, none or not there, and nothing can be planned. */
function baseOf(
  rows: readonly TallyRow[],
  whole: readonly TallyRow[],
  { measure, level }: BasisRequest,
): PlanBasis['base'] | null {
  const share = isProportion(measure);
  const figure = share
    ? proportionOf(measure, rows, { level, correlation: borrowedCorrelation(measure, whole) })
    : perLineHour(measure, rows, { level, seed: 1 });
  const { rate } = figure;
  if (rate.kind === 'not-estimable' || rate.estimate === 0) return null;
  return share && rate.estimate === 1 ? null : rate;
}

interface PaceParts {
  readonly whole: readonly TallyRow[];
  readonly pairs: readonly { readonly n1: number; readonly n2: number }[];
  readonly strata: PlanStrata;
  readonly request: BasisRequest;
}

function paceOf(
  trips: readonly { readonly date: string }[],
  { whole, pairs, strata, request }: PaceParts,
): PlanPace {
  const [first, last] = [trips[0]?.date ?? '', trips.at(-1)?.date ?? ''];
  const days = dayNumber(last) - dayNumber(first) + 1;
  const unitsOf = (row: TallyRow) => eventsAndUnits(row, request.measure).units;
  // The pitch rod stands in the middle and takes no part when the sides are compared.
  const units =
    strata.from === 'even'
      ? sumOf(whole.map(unitsOf))
      : sumOf(strata.pairs.map(({ n1, n2 }) => n1 + n2));
  const counted = strata.from === 'neighbours' ? 2 * strata.pairs.length : trips.length;
  return {
    trips: trips.length,
    days,
    // A log of one busy week says nothing of two trips a day all season.
    tripsPerWeek: (7 * trips.length) / Math.max(days, 7),
    unitsPerTrip: units / counted,
    bitesPerTrip: sumOf(whole.map((row) => row.bites)) / trips.length,
    tripsWithEither: pairs.length,
    tripsWithBoth: pairs.filter(({ n1, n2 }) => n1 > 0 && n2 > 0).length,
  };
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
