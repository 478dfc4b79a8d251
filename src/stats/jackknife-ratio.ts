import { sum } from 'simple-statistics';
/**
 * What leaving out one trip at a time tells of a ratio of totals: its bias, its standard error and
 * the skewness that a BCa interval needs.
 */
export interface RatioJackknife {
  /** The ratio without each trip in turn, in the order given. */
  readonly leaveOneOut: readonly number[];
  readonly mean: number;
  readonly biasEstimate: number;
  readonly biasCorrected: number;
  /** Around the mean of the leave-one-out ratios. */
  readonly se: number;
  /** Around the ratio itself, never smaller. */
  readonly seAroundEstimate: number;
  /** From the spread of the pseudo-values; equals `se` but for rounding. */
  readonly sePseudoValues: number;
  /** Acceleration of BCa from the leave-one-out ratios. */
  readonly acceleration: number;
}

/**
 * Jackknife of Σ numerators / Σ denominators over trips, each with a denominator above 0.
 * Null with fewer than two trips, which leave nothing when one is taken out.
 * Source: Davison & Hinkley 1997 ch. 2; Efron 1987 (acceleration).
 */
export function jackknifeRatio(
  numerators: readonly number[],
  denominators: readonly number[],
): RatioJackknife | null {
  const n = numerators.length;
  if (n < 2) return null;
  const [y, x] = [sum(numerators), sum(denominators)];
  const ratio = y / x;
  const leaveOneOut = numerators.map((yi, i) => (y - yi) / (x - (denominators[i] as number)));
  const mean = sum(leaveOneOut) / n;
  const biasEstimate = (n - 1) * (mean - ratio);
  const pseudoValues = leaveOneOut.map((left) => n * ratio - (n - 1) * left);
  return {
    leaveOneOut,
    mean,
    biasEstimate,
    biasCorrected: ratio - biasEstimate,
    se: Math.sqrt(((n - 1) / n) * squaresAround(leaveOneOut, mean)),
    seAroundEstimate: Math.sqrt(((n - 1) / n) * squaresAround(leaveOneOut, ratio)),
    sePseudoValues: Math.sqrt(squaresAround(pseudoValues, sum(pseudoValues) / n) / (n - 1) / n),
    acceleration: accelerationOf(leaveOneOut.map((left) => mean - left)),
  };
}

/**
 * Acceleration of a BCa interval, Σu³ / (6 (Σu²)^1.5), from influence values u (any scale).
 * 0 where all are 0.
 * Source: Efron 1987.
 */
export function accelerationOf(influence: readonly number[]): number {
  const squares = sum(influence.map((u) => u * u));
  return squares === 0 ? 0 : sum(influence.map((u) => u ** 3)) / (6 * squares ** 1.5);
}

const squaresAround = (values: readonly number[], middle: number): number =>
  sum(values.map((value) => (value - middle) ** 2));
