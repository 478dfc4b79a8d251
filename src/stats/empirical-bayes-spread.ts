import { findRoot } from './root.ts';

/** How well a spread between options fits, over the logarithm of the parameter that rules it. */
export interface SpreadProfile {
  /** Log-likelihood with everything else at its best, up to a constant. */
  readonly height: (log: number) => number;
  /** Its slope. */
  readonly slope: (log: number) => number;
}

/** The prior weighs between a thousandth of one trial and a million trials. */
const LEAST = Math.log(1e-3);
const MOST = Math.log(1e6);
const STEPS = 36;

/**
 * The logarithm at which the profile is highest, to the last digit. The profile may have several
 * tops, so all are found between fixed places and the highest is taken.
 * null: it rises all the way to one end. Near the upper end more spread than chance would show only
 * after millions of trials, so to a reader there is none.
 */
export function likeliestSpread({ height, slope }: SpreadProfile): number | null {
  const places = Array.from({ length: STEPS + 1 }, (_, i) => LEAST + (i * (MOST - LEAST)) / STEPS);
  const slopes = places.map(slope);
  const tops: number[] = [];
  for (let i = 0; i < STEPS; i++) {
    if (!((slopes[i] as number) > 0 && (slopes[i + 1] as number) <= 0)) continue;
    tops.push(findRoot(slope, { lower: places[i] as number, upper: places[i + 1] as number }));
  }
  if (tops.length === 0) return null;
  return tops.reduce((best, top) => (height(top) > height(best) ? top : best));
}
