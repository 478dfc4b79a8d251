import type { Stratum } from './mantel-haenszel-strata.ts';

/** Relative probabilities of the totals `first`, `first` + 1, …; the largest is 1. */
export interface Weights {
  readonly first: number;
  readonly weights: Float64Array;
}

/** At what odds ratio (above 0) weights are formed, and how small a share may be left out. */
export interface WeightQuestion {
  readonly oddsRatio: number;
  /** Values less likely than this share of the likeliest may be left out of a long support. */
  readonly floor: number;
}

/** Supports up to this many values are kept whole, whatever the floor. */
const KEPT_WHOLE = 2000;

/**
 * The smallest and the largest number of events the first group of a table can have had, given its
 * margins: the two group sizes and the total of events.
 */
export function conditionalSupport({ x1, n1, x2, n2 }: Stratum): {
  readonly least: number;
  readonly most: number;
} {
  const events = x1 + x2;
  return { least: Math.max(0, events - n2), most: Math.min(n1, events) };
}

/**
 * How likely each number of events in the first group is, given the margins of one table and an
 * odds ratio: Fisher's noncentral hypergeometric distribution, up to a factor. Neighbours are formed
 * from their ratio, walking away from the likeliest value, so that counts of 10⁹ lose no digits to
 * factorials and cost only as many steps as there are values that matter.
 * Source: Fisher 1935; the ratio of neighbouring terms is elementary.
 */
export function conditionalWeights(table: Stratum, question: WeightQuestion): Weights {
  const { n1, n2 } = table;
  const events = table.x1 + table.x2;
  const { least, most } = conditionalSupport(table);
  const rise = (s: number) =>
    ((n1 - s) / (s + 1)) * ((events - s) / (n2 - events + s + 1)) * question.oddsRatio;
  const likeliest = lastWithRise(rise, least, most);
  const floor = most - least < KEPT_WHOLE ? 0 : question.floor;
  const up = walk(most - likeliest, floor, (step) => rise(likeliest + step));
  const down = walk(likeliest - least, floor, (step) => 1 / rise(likeliest - step - 1));
  const weights = Float64Array.from([...down.reverse(), 1, ...up]);
  return { first: likeliest - down.length, weights };
}

/** The likeliest value: the last one whose step up from its neighbour below is a rise. */
function lastWithRise(rise: (s: number) => number, least: number, most: number): number {
  let [low, high] = [least, most];
  while (low < high) {
    const middle = low + Math.ceil((high - low) / 2);
    if (rise(middle - 1) >= 1) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Weights met in up to `steps` steps away from weight 1, until they fall below the floor. */
function walk(steps: number, floor: number, ratio: (step: number) => number): number[] {
  const met: number[] = [];
  let weight = 1;
  for (let step = 0; step < steps; step++) {
    weight *= ratio(step);
    if (weight <= floor) break;
    met.push(weight);
  }
  return met;
}

/** The same without the values at both ends that fall below the floor, if the support is long. */
export function withoutTails({ first, weights }: Weights, floor: number): Weights {
  if (weights.length <= KEPT_WHOLE) return { first, weights };
  const from = weights.findIndex((weight) => weight > floor);
  const to = weights.findLastIndex((weight) => weight > floor);
  return { first: first + from, weights: weights.slice(from, to + 1) };
}
