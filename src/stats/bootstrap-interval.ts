import type { Interval } from '../base/estimate.ts';
import { normalCdf, normalQuantile } from './distributions.ts';
import { type Level, normalCritical, tailArea } from './interval-level.ts';

/** An estimate and what it came to in each resample. */
export interface Replicated extends Level {
  readonly estimate: number;
  /** At least two, in any order, all finite. */
  readonly replicates: ArrayLike<number>;
  /** Of BCa; 0 turns it into the bias-corrected percentile interval. */
  readonly acceleration: number;
  /** Whether replicates equal to the estimate count half as below it (default no). */
  readonly midTies?: boolean;
}

/** The intervals that one list of replicates gives. */
export interface BootstrapIntervals {
  readonly bias: number;
  readonly se: number;
  readonly normal: Interval;
  readonly basic: Interval;
  readonly percentile: Interval;
  /** Normal quantile of the share of replicates below the estimate. */
  readonly z0: number;
  /** The shares at which BCa reads off the replicates. */
  readonly adjustedLevels: readonly [number, number];
  readonly bca: Interval;
}

/**
 * Normal, basic, percentile and BCa limits from one list of replicates. Where the list is too short
 * for a level, its smallest or largest value serves.
 * Source: Davison & Hinkley 1997 ch. 5; Efron 1987 (BCa).
 */
export function bootstrapIntervals(replicated: Replicated): BootstrapIntervals {
  const { estimate, level, acceleration } = replicated;
  const sorted = Float64Array.from(replicated.replicates).sort();
  const mean = sorted.reduce((total, value) => total + value, 0) / sorted.length;
  const squares = sorted.reduce((total, value) => total + (value - mean) ** 2, 0);
  const se = Math.sqrt(squares / (sorted.length - 1));
  const bias = mean - estimate;
  const tail = tailArea(level);
  const [low, high] = [replicateQuantile(sorted, tail), replicateQuantile(sorted, 1 - tail)];
  const z0 = normalQuantile(shareBelow(sorted, estimate, replicated.midTies ?? false));
  const adjustedLevels = bcaLevels({ z0, acceleration, level });
  const half = normalCritical(level) * se;
  return {
    bias,
    se,
    normal: { lower: estimate - bias - half, upper: estimate - bias + half },
    basic: { lower: 2 * estimate - high, upper: 2 * estimate - low },
    percentile: { lower: low, upper: high },
    z0,
    adjustedLevels,
    bca: {
      lower: replicateQuantile(sorted, adjustedLevels[0]),
      upper: replicateQuantile(sorted, adjustedLevels[1]),
    },
  };
}

/**
 * The two shares, 0 to 1, at which BCa reads the distribution of the replicates, corrected for bias
 * (z0, ±Infinity allowed) and for a spread that changes with the estimate (acceleration).
 * Source: Efron 1987.
 */
export function bcaLevels({
  z0,
  acceleration,
  level,
}: Level & { z0: number; acceleration: number }): [number, number] {
  const z = normalCritical(level);
  return [shifted(-z), shifted(z)];

  function shifted(quantile: number): number {
    const sum = z0 + quantile;
    if (!Number.isFinite(sum)) return sum > 0 ? 1 : 0;
    const shrink = 1 - acceleration * sum;
    // Beyond this point the correction has run off its scale; the end of the list is all there is.
    if (shrink <= 0) return sum > 0 ? 1 : 0;
    return normalCdf(z0 + sum / shrink);
  }
}

/**
 * Quantile of sorted replicates at rank (B + 1)·share; between two ranks on the normal scale, at
 * the ends the smallest or largest value.
 * Source: Davison & Hinkley 1997 ch. 5.
 */
export function replicateQuantile(sorted: Float64Array, share: number): number {
  const ranks = sorted.length + 1;
  const rank = ranks * share;
  const whole = Math.trunc(rank);
  if (whole < 1) return sorted[0] as number;
  if (whole >= sorted.length) return sorted.at(-1) as number;
  const below = sorted[whole - 1] as number;
  if (rank === whole) return below;
  const [left, right] = [normalQuantile(whole / ranks), normalQuantile((whole + 1) / ranks)];
  const part = (normalQuantile(share) - left) / (right - left);
  return below + part * ((sorted[whole] as number) - below);
}

function shareBelow(sorted: Float64Array, estimate: number, midTies: boolean): number {
  let below = 0;
  let equal = 0;
  for (const value of sorted) {
    if (midTies && nearly(value, estimate)) equal++;
    else if (value < estimate) below++;
  }
  return (below + equal / 2) / sorted.length;
}

/** Equal but for the rounding of sums taken in another order. */
const nearly = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.abs(b);
