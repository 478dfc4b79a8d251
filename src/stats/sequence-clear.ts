import type { Interval } from '../base/estimate.ts';

/** Since when a sequence of intervals has said that a difference is not 0. */
export interface Clearance {
  /** Trip after which an interval left 0 out for the first time; null: none ever did. */
  readonly firstClear: number | null;
  /** Trip from which on every interval left out 0, on one side; null: the last one holds 0. */
  readonly clearSince: number | null;
}

/**
 * When intervals, one after each trip, first left out 0 and since when they have done so for good.
 * An interval that touches 0 holds it.
 */
export function clearance(steps: readonly (Interval & { readonly trip: number })[]): Clearance {
  const sides = steps.map(({ lower, upper }) => (lower > 0 ? 1 : upper < 0 ? -1 : 0));
  const first = sides.findIndex((side) => side !== 0);
  const final = sides.at(-1) ?? 0;
  const turned = sides.findLastIndex((side) => side !== final);
  return {
    firstClear: steps[first]?.trip ?? null,
    clearSince: final === 0 ? null : (steps[turned + 1]?.trip ?? null),
  };
}
