import { Matrix, solve } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';

/** A fitted local regression that can be asked for its height anywhere. */
export interface LocalRegression {
  readonly kind: 'fitted';
  /** The curve at one x; null where too few different x lie near it. */
  readonly at: (x: number) => LocalHeight | null;
  /** √(Σ residual² / δ₁); null where the curve leaves no freedom to the residuals. */
  readonly residualScale: number | null;
  /** Σ l², the sum of squares of the smoother matrix: about the number of parameters spent. */
  readonly equivalentParameters: number;
  /** Trace of the smoother matrix. */
  readonly trace: number;
}

/** Both in the unit of y; the error is null where there is no residual scale. */
export interface LocalHeight {
  readonly fit: number;
  readonly standardError: number | null;
}

export interface LoessOptions {
  /** Share of the points in each local fit; above 1 all of them, ever more evenly weighted. */
  readonly span: number;
  /** Local lines or parabolas. */
  readonly degree: 1 | 2;
}

/**
 * Local regression by least squares with tricube weights, worked out directly at every x asked for,
 * with exact statistics. Time grows with the square of the number of points.
 * Not estimable with too few different x for the degree anywhere, or a span that holds too few
 * points. Throws on numbers that are none.
 * Source: Cleveland & Devlin 1988, J. Am. Stat. Assoc. 83:596.
 */
export function loess(
  x: readonly number[],
  y: readonly number[],
  options: LoessOptions,
): LocalRegression | Refusal {
  if (x.length !== y.length || [...x, ...y].some((value) => !Number.isFinite(value)))
    throw new RangeError('loess needs as many finite x as y.');
  const n = x.length;
  if (n === 0) return refuse('There are no points.');
  let [trace, squares, residuals] = [0, 0, 0];
  for (const [i, here] of x.entries()) {
    const row = operatorRow(x, here, options);
    if (row === null) return refuse('Too few different values of x near some point.');
    trace += row[i] as number;
    squares += row.reduce((sum, l) => sum + l * l, 0);
    residuals += ((y[i] as number) - dot(row, y)) ** 2;
  }
  const freedom = n - 2 * trace + squares;
  const residualScale = freedom > 1e-9 * n ? Math.sqrt(residuals / freedom) : null;
  return {
    kind: 'fitted',
    at: (here) => {
      const row = operatorRow(x, here, options);
      if (row === null) return null;
      const spread = Math.sqrt(row.reduce((sum, l) => sum + l * l, 0));
      return {
        fit: dot(row, y),
        standardError: residualScale === null ? null : residualScale * spread,
      };
    },
    residualScale,
    equivalentParameters: squares,
    trace,
  };
}

const dot = (row: readonly number[], y: readonly number[]): number =>
  row.reduce((sum, l, i) => sum + l * (y[i] as number), 0);

/** The weights with which the y add up to the height at `here`; null where no curve is held. */
function operatorRow(
  x: readonly number[],
  here: number,
  { span, degree }: LoessOptions,
): number[] | null {
  const distances = x.map((value) => Math.abs(value - here));
  const reach = reachOf(distances, span);
  const weights = distances.map((d) => (d < reach ? (1 - (d / reach) ** 3) ** 3 : 0));
  if (new Set(x.filter((_, i) => (weights[i] as number) > 0)).size <= degree) return null;
  // Distances as shares of the reach keep the powers of one size.
  const offsets = x.map((value) => (value - here) / reach);
  const moment = (power: number): number =>
    weights.reduce((sum, w, i) => sum + w * (offsets[i] as number) ** power, 0);
  const powers = Array.from({ length: degree + 1 }, (_, power) => power);
  const moments = new Matrix(powers.map((j) => powers.map((k) => moment(j + k))));
  const atZero = Matrix.columnVector(powers.map((power) => (power === 0 ? 1 : 0)));
  const coefficients = solve(moments, atZero).to1DArray();
  return weights.map((w, i) =>
    coefficients.reduce((sum, c, power) => sum + w * c * (offsets[i] as number) ** power, 0),
  );
}

/** How far the local fit reaches: to the last neighbour, or beyond for a span above 1. */
function reachOf(distances: readonly number[], span: number): number {
  const sorted = [...distances].sort((a, b) => a - b);
  const farthest = sorted.at(-1) ?? 0;
  if (span > 1) return farthest * Math.sqrt(span);
  return sorted[Math.floor(sorted.length * span + 1e-5) - 1] ?? 0;
}
