import { Matrix } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, dot } from './design-columns.ts';
import { chiSquareTails, fTails } from './distributions.ts';
import { pivotedQr } from './pivoted-qr.ts';
import { cholesky, choleskySolveRows } from './sandwich-block.ts';
import type { Covariance } from './sandwich-contrast.ts';
import { hotellingDf } from './wald-hotelling.ts';

/** Whether several contrasts are all 0. */
export interface WaldTest {
  readonly kind: 'wald';
  /** Q = (C·b)′(C·V·C′)⁻¹(C·b), 0 or more. */
  readonly chiSquare: number;
  /** Number of contrasts. */
  readonly df: number;
  /** P value of Q as χ²; too small when clusters are few. */
  readonly p: number;
  /** The form for small samples, or why there is none. */
  readonly f: FForm | Refusal;
}

/** Q scaled to an F statistic on `df1` and `df2` degrees of freedom. */
export interface FForm {
  readonly kind: 'f';
  readonly statistic: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
}

/**
 * Joint Wald test that all contrasts are 0. Its F form is Q/q on the residual degrees of freedom
 * (model-based with estimated dispersion), on clusters − 1 (CR0, CR1, CR1S), or the approximate
 * Hotelling T² (CR2, CR3, CR3J).
 * @param contrasts one or more linearly independent contrasts of the model's coefficients
 * @returns refused when the contrasts repeat one another or the clusters are too few to tell them
 * apart
 * Source: Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672, §3.2 (AHT-Z).
 */
export function waldTest(covariance: Covariance, contrasts: readonly Column[]): WaldTest | Refusal {
  if (contrasts.length === 0) return refuse('There is nothing to compare.');
  if (pivotedQr(contrasts).kept.length < contrasts.length)
    return refuse('Two of the comparisons say the same.');
  const chiSquare = jointDistance(covariance, contrasts);
  if (chiSquare === null) return refuse(TOO_FEW);
  const df = contrasts.length;
  const p = chiSquareTails(chiSquare, df).upper;
  return { kind: 'wald', chiSquare, df, p, f: fForm(covariance, contrasts, chiSquare) };
}

const TOO_FEW = 'There are too few trips to judge so many comparisons at once.';

/** (C·b)′(C·V·C′)⁻¹(C·b), or null when C·V·C′ is not of full rank. */
function jointDistance({ model, matrix }: Covariance, contrasts: readonly Column[]): number | null {
  const n = contrasts.length;
  const moved = contrasts.map((c) => matrix.mmul(Matrix.columnVector([...c])).getColumn(0));
  const variance = (i: number, j: number): number =>
    (contrasts[i] as Column).reduce((sum, value, k) => sum + value * at(moved[j] ?? [], k), 0);
  const size = contrasts.map((_, i) => Math.sqrt(Math.max(0, variance(i, i))));
  if (size.some((value) => value === 0)) return null;
  const cell = (place: number): number => {
    const [i, j] = [Math.floor(place / n), place % n];
    return variance(i, j) / (at(size, i) * at(size, j));
  };
  const correlation = Float64Array.from({ length: n * n }, (_, place) => cell(place));
  const factor = cholesky(correlation, n, 1e-10);
  if (factor === null) return null;
  const z = Float64Array.from(contrasts, (c, i) => dot(c, model.coefficients) / at(size, i));
  const solved = { rows: 1, columns: n, values: z.slice() };
  choleskySolveRows(factor, solved);
  return dot(z, solved.values);
}

function fForm(
  covariance: Covariance,
  contrasts: readonly Column[],
  chiSquare: number,
): FForm | Refusal {
  const q = contrasts.length;
  if (covariance.kind === 'model-based') {
    const { family, dfResidual } = covariance.model;
    const df2 = family.dispersion === 'estimated' ? dfResidual : Number.POSITIVE_INFINITY;
    return fOn(chiSquare / q, q, df2);
  }
  if (covariance.type !== 'CR2' && !covariance.type.startsWith('CR3'))
    return fOn(chiSquare / q, q, covariance.clusters - 1);
  const eta = hotellingDf(covariance, contrasts);
  const df2 = eta === null ? 0 : eta - q + 1;
  if (eta === null || !(df2 > 0)) return refuse(TOO_FEW);
  return fOn((chiSquare * df2) / (eta * q), q, df2);
}

function fOn(statistic: number, df1: number, df2: number): FForm {
  const infinite = df2 === Number.POSITIVE_INFINITY;
  const p = infinite
    ? chiSquareTails(statistic * df1, df1).upper
    : fTails(statistic, df1, df2).upper;
  return { kind: 'f', statistic, df1, df2, p };
}
