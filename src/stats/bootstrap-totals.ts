import { Random } from './random.ts';

/** A group's share in the trips where it occurs: `trips[j]` is the index of a trip, 0-based. */
export interface TripShares {
  readonly trips: ArrayLike<number>;
  readonly numerators: ArrayLike<number>;
  readonly denominators: ArrayLike<number>;
}

/** Totals of one group in each draw. */
export interface DrawnTotals {
  readonly numerators: Float64Array;
  readonly denominators: Float64Array;
}

/** How many trips the log has, how often it is redrawn, and from which seed. */
export interface Resampling {
  readonly trips: number;
  readonly draws: number;
  readonly seed: number;
}

/** Draws worked on at a time: their trip counts then stay in the processor's near memory. */
const BLOCK = 250;

/**
 * Redraws whole trips with replacement and adds up every group in every draw. The trips of a draw
 * are the same for all groups, so that differences between groups keep their shared trips.
 * Work grows with draws × (trips + shares), not with groups × trips.
 * Source: Davison & Hinkley 1997 ch. 3 (resampling of clusters).
 */
export function bootstrapTotals(
  groups: readonly TripShares[],
  { trips, draws, seed }: Resampling,
): DrawnTotals[] {
  const random = new Random(seed);
  const totals = groups.map(() => ({
    numerators: new Float64Array(draws),
    denominators: new Float64Array(draws),
  }));
  const counts = new Uint32Array(trips * BLOCK);
  for (let start = 0; start < draws; start += BLOCK) {
    const size = Math.min(BLOCK, draws - start);
    drawCounts(counts, { trips, size, random });
    groups.forEach((group, g) => {
      addBlock(totals[g] as DrawnTotals, group, { counts, start, size });
    });
  }
  return totals;
}

/** The ratio of each draw, without the draws in which the group did not occur at all. */
export function drawnRatios({ numerators, denominators }: DrawnTotals): Float64Array {
  const ratios = new Float64Array(numerators.length);
  let defined = 0;
  for (let draw = 0; draw < numerators.length; draw++) {
    const denominator = denominators[draw] as number;
    if (denominator > 0) ratios[defined++] = (numerators[draw] as number) / denominator;
  }
  return ratios.subarray(0, defined);
}

/** How often each trip is in each draw of the block, trip by trip. */
function drawCounts(
  counts: Uint32Array,
  { trips, size, random }: { trips: number; size: number; random: Random },
): void {
  counts.fill(0);
  for (let draw = 0; draw < size; draw++)
    for (let taken = 0; taken < trips; taken++) {
      const place = random.integer(trips) * BLOCK + draw;
      counts[place] = (counts[place] as number) + 1;
    }
}

function addBlock(
  totals: DrawnTotals,
  group: TripShares,
  { counts, start, size }: { counts: Uint32Array; start: number; size: number },
): void {
  const numerators = totals.numerators.subarray(start, start + size);
  const denominators = totals.denominators.subarray(start, start + size);
  for (let j = 0; j < group.trips.length; j++) {
    const from = (group.trips[j] as number) * BLOCK;
    const times = counts.subarray(from, from + size);
    addTimes(numerators, times, group.numerators[j] as number);
    addTimes(denominators, times, group.denominators[j] as number);
  }
}

/** The innermost loop of all: `draws × shares` rounds, so nothing else happens in it. */
function addTimes(sums: Float64Array, times: Uint32Array, value: number): void {
  if (value === 0) return;
  for (let i = 0; i < sums.length; i++)
    sums[i] = (sums[i] as number) + (times[i] as number) * value;
}
