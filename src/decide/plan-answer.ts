import { type Refusal, refuse } from '../base/estimate.ts';
import { type PlanBasis, planBasis } from '../estimate/plan-basis.ts';
import { planDesign } from '../estimate/plan-design.ts';
import { type PlanPlace, planPlaces } from '../estimate/plan-places.ts';
import {
  detectableByPlan,
  mostDifference,
  type PlanTarget,
  type PowerPoint,
  plannedRates,
  planPower,
  tripsNeeded,
} from '../estimate/plan-power.ts';
import type { PlanQuestion } from '../estimate/plan-strata.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { drawSchedule, type PlannedTrip } from './plan-schedule.ts';
import { marginOf } from './verdict.ts';

/** What is to be planned. */
export interface PlanRequest extends PlanQuestion {
  readonly factor: FactorName;
  /** A and B; either may be new to the log. */
  readonly levels: readonly [string, string];
  /** What is to be told apart; null: the practical margin. */
  readonly difference: number | null;
  readonly power: number;
  readonly level: number;
  /** Trips that can be given to it; null: as many as are needed. */
  readonly trips: number | null;
  readonly seed: number;
}

/** A plan for telling two levels apart. */
export interface ComparisonPlan {
  readonly kind: 'planned';
  readonly factor: FactorName;
  readonly levels: readonly [string, string];
  readonly target: PlanTarget;
  readonly basis: PlanBasis;
  /** Where the levels change sides; empty where whole trips fish one of them. */
  readonly places: readonly PlanPlace[];
  /** The rates it is reckoned with, A and B. */
  readonly rates: readonly [number, number];
  /** Trips that tell the difference; null: more than any boat makes. */
  readonly needed: number | null;
  /** Trips that were asked for; null: none in particular. */
  readonly asked: number | null;
  /** What the trips of the schedule do. */
  readonly planned: PowerPoint;
  /** The smallest difference that the trips of the schedule tell; null: none. */
  readonly detectable: number | null;
  /** What other numbers of trips would do, 5 to 200. */
  readonly curve: readonly PowerPoint[];
  readonly seed: number;
  readonly schedule: readonly PlannedTrip[];
}

/** A schedule is not drawn for more trips than this unless they are asked for. */
export const LONGEST_UNASKED = 200;
const CURVE_STEP = 5;

/** Plans a comparison, or says why this log is too little to plan from. */
export function planComparison(season: TidySeason, request: PlanRequest): ComparisonPlan | Refusal {
  const { factor, levels, measure, level, power, seed } = request;
  const design = planDesign(factor);
  if (typeof design !== 'string') return design;
  const places = design === 'sides' ? planPlaces(season, factor, request) : [];
  if ('reason' in places) return places;
  const basis = planBasis(season, { ...request, design, places });
  if (basis.kind === 'not-estimable') return basis;
  const difference = request.difference ?? marginOf(measure, season.log.settings);
  const most = mostDifference(basis, measure);
  if (difference > most) return refuse(noRoom(difference, most));
  const target: PlanTarget = { measure, difference, level, power };
  const needed = tripsNeeded(basis, target);
  const trips = evenTrips(request.trips ?? Math.min(needed ?? LONGEST_UNASKED, LONGEST_UNASKED));
  const pointAt = (count: number) => ({ trips: count, power: planPower(basis, target, count) });
  return {
    kind: 'planned',
    factor,
    levels,
    target,
    basis,
    places,
    rates: plannedRates(basis, target),
    needed,
    asked: request.trips,
    planned: pointAt(trips),
    detectable: detectableByPlan(basis, target, trips),
    curve: Array.from({ length: LONGEST_UNASKED / CURVE_STEP }, (_, at) =>
      pointAt((at + 1) * CURVE_STEP),
    ),
    seed,
    schedule: drawSchedule({ design, levels, trips, places, seed }),
  };
}

/** Sides and days balance on an even number of trips. */
function evenTrips(trips: number): number {
  return Math.max(2, 2 * Math.ceil(trips / 2));
}

function noRoom(difference: number, most: number): string {
  const points = (share: number) => Number((100 * share).toPrecision(3));
  return (
    `A difference of ${points(difference)} points cannot be: from where this log stands there is ` +
    `room for ${points(most)} at most. Ask for a smaller --difference.`
  );
}
