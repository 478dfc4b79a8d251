import { Matrix } from 'ml-matrix';
import { addScaled, type Column, dot } from './design-columns.ts';

/**
 * A matrix taken apart as (kept columns) = Q·R, with columns that are (nearly) combinations of
 * earlier ones set aside.
 */
export interface PivotedQr {
  /** Columns that stand on their own, by their place in the input, in that order. */
  readonly kept: readonly number[];
  /** Columns that earlier ones already hold. */
  readonly aliased: readonly number[];
  /** Orthonormal columns spanning the kept ones. */
  readonly q: readonly Column[];
  /** Upper triangular, kept × kept. */
  readonly r: Matrix;
  /** Kept × aliased: each aliased column = Σ kept column · entry. */
  readonly alias: Matrix;
}

/** A column counts as aliased when less than this share of its length is new. */
const NEW_SHARE = 1e-9;

/**
 * Rank-revealing QR with limited pivoting: columns are taken in order and only those that add
 * nothing go to the end, so that of two tied columns the earlier one stays.
 * An all-zero column is aliased; no columns or no rows give rank 0.
 * Source: orthogonalisation with one repeat where a column shrank (Björck 1996, Numerical Methods
 * for Least Squares Problems, §2.4); limited pivoting as in LINPACK's least squares (Dongarra et al.
 * 1979, from memory).
 */
export function pivotedQr(columns: readonly Column[], newShare = NEW_SHARE): PivotedQr {
  const kept: number[] = [];
  const aliased: number[] = [];
  const q: Column[] = [];
  const coordinates: number[][] = [];
  for (const [index, column] of columns.entries()) {
    const length = Math.sqrt(dot(column, column));
    const { rest, along, size } = withoutSpan(column, length, q);
    const isNew = length > 0 && size > newShare * length;
    (isNew ? kept : aliased).push(index);
    if (isNew) {
      for (let row = 0; row < rest.length; row++) rest[row] = (rest[row] as number) / size;
      q.push(rest);
      along.push(size);
    }
    coordinates.push(along);
  }
  const rank = kept.length;
  const r = upper(kept.map((index) => coordinates[index] as number[]));
  const alias = new Matrix(rank, aliased.length);
  for (const [place, index] of aliased.entries()) {
    const along = coordinates[index] as number[];
    const padded = Float64Array.from({ length: rank }, (_, row) => along[row] ?? 0);
    for (const [row, value] of solveUpper(r, padded).entries()) alias.set(row, place, value);
  }
  return { kept, aliased, q, r, alias };
}

/** Takes off what the orthonormal columns hold; a second pass mends the rounding of the first. */
function withoutSpan(column: Column, length: number, q: readonly Column[]) {
  const rest = column.slice();
  const along = q.map(() => 0);
  let size = length;
  for (let pass = 0; pass < 2; pass++) {
    for (let row = 0; row < q.length; row++) {
      const direction = q[row] as Column;
      const part = dot(direction, rest);
      if (part === 0) continue;
      along[row] = (along[row] as number) + part;
      addScaled(rest, -part, direction);
    }
    const before = size;
    size = Math.sqrt(dot(rest, rest));
    if (size > 0.5 * before) break;
  }
  return { rest, along, size };
}

function upper(columns: readonly (readonly number[])[]): Matrix {
  const r = Matrix.zeros(columns.length, columns.length);
  for (const [column, along] of columns.entries())
    for (const [row, value] of along.entries()) r.set(row, column, value);
  return r;
}

/** Solves R·x = b for an upper triangular R. */
export function solveUpper(r: Matrix, b: Column): Column {
  const x = b.slice();
  for (let row = x.length - 1; row >= 0; row--) {
    let value = x[row] as number;
    for (let col = row + 1; col < x.length; col++) value -= r.get(row, col) * (x[col] as number);
    x[row] = value / r.get(row, row);
  }
  return x;
}

/** Solves R′·x = b for an upper triangular R. */
export function solveUpperTransposed(r: Matrix, b: Column): Column {
  const x = b.slice();
  for (let row = 0; row < x.length; row++) {
    let value = x[row] as number;
    for (let col = 0; col < row; col++) value -= r.get(col, row) * (x[col] as number);
    x[row] = value / r.get(row, row);
  }
  return x;
}

/** The inverse of an upper triangular R, itself upper triangular. */
export function inverseUpper(r: Matrix): Matrix {
  const inverse = Matrix.zeros(r.rows, r.rows);
  for (let column = 0; column < r.rows; column++) {
    const unit = new Float64Array(r.rows);
    unit[column] = 1;
    for (const [row, value] of solveUpper(r, unit).entries()) inverse.set(row, column, value);
  }
  return inverse;
}
