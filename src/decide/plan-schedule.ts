import type { PlanDesign } from '../estimate/plan-design.ts';
import type { PlanPlace } from '../estimate/plan-places.ts';
import type { Reach, Side } from '../settings/settings.ts';
import { Random } from '../stats/random.ts';

/** What one trip is to fish. */
export interface PlannedTrip {
  /** From 1. */
  readonly tripNumber: number;
  /** From 1; within a block the sides, or the two levels, balance. */
  readonly block: number;
  /** Every line of the plan; a single one without a position where the whole trip is meant. */
  readonly lines: readonly PlannedLine[];
}

/** What one line is to fish on one trip. */
export interface PlannedLine {
  /** null: the whole trip. */
  readonly position: string | null;
  readonly side: Side | null;
  /** null: the whole trip, or whole sides. */
  readonly reach: Reach | null;
  readonly level: string;
}

/** What a schedule is drawn for. */
export interface ScheduleRequest {
  readonly design: PlanDesign;
  readonly levels: readonly [string, string];
  /** Even, 2 or more. */
  readonly trips: number;
  /** Where the levels are fished; for `sides` only. */
  readonly places: readonly PlanPlace[];
  /** Same seed, same schedule; 0 to 4294967295. */
  readonly seed: number;
}

/** Trips in a block: sides come round twice in four trips; whole days balance in every two. */
export const BLOCK_TRIPS: Readonly<Record<PlanDesign, number>> = { sides: 4, days: 2 };

/**
 * Draws a schedule by permuted blocks. `sides`: every trip fishes both levels at every place; in
 * each block of 4 (the last may be of 2) each place has A to port on half the trips; and on each
 * trip A is to port at half the places, or as near as an odd number allows. `days`: of each pair of
 * trips one fishes A and the other B.
 * Throws on a number of trips that is not even.
 * Source: permuted blocks: Fisher 1935; Friedman, Furberg & DeMets, Fundamentals of Clinical
 * Trials, ch. 6, from memory.
 */
export function drawSchedule(request: ScheduleRequest): readonly PlannedTrip[] {
  const { design, trips, seed } = request;
  if (!(trips >= 2 && trips % 2 === 0))
    throw new RangeError(`A schedule has an even number of trips, 2 or more, not ${trips}.`);
  const random = new Random(seed);
  const schedule: PlannedTrip[] = [];
  for (let block = 1; schedule.length < trips; block++) {
    const size = Math.min(BLOCK_TRIPS[design], trips - schedule.length);
    const isFirst = halves(size, random);
    const turned = halves(request.places.length, random);
    for (const first of isFirst) {
      const lines =
        design === 'days' ? wholeTrip(first, request) : bothSides(first, turned, request);
      schedule.push({ tripNumber: schedule.length + 1, block, lines });
    }
  }
  return schedule;
}

/** Half true and half false in random order; which has the odd one is left to chance as well. */
function halves(count: number, random: Random): boolean[] {
  const more = count % 2 === 1 && random.integer(2) === 1 ? 1 : 0;
  const trues = Math.floor(count / 2) + more;
  return random.permutation(count).map((place) => place < trues);
}

function wholeTrip(first: boolean, { levels: [a, b] }: ScheduleRequest): PlannedLine[] {
  return [{ position: null, side: null, reach: null, level: first ? a : b }];
}

function bothSides(
  aToPort: boolean,
  turned: readonly boolean[],
  { places, levels: [a, b] }: ScheduleRequest,
): PlannedLine[] {
  return places.flatMap(({ reach, port, starboard }, at) => {
    const [toPort, toStarboard] = aToPort !== turned[at] ? [a, b] : [b, a];
    const lines = (side: Side, positions: readonly string[], level: string) =>
      positions.map((position) => ({ position, side, reach, level }));
    return [...lines('port', port, toPort), ...lines('starboard', starboard, toStarboard)];
  });
}
