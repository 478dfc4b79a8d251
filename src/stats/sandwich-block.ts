import { at, type Column } from './design-columns.ts';

/** The rows of one cluster as a small dense matrix, row after row in one array. */
export interface Block {
  readonly rows: number;
  readonly columns: number;
  readonly values: Column;
}

/** The given rows of several columns. */
export function gather(columns: readonly Column[], rows: readonly number[]): Block {
  const values = new Float64Array(rows.length * columns.length);
  for (let place = 0; place < rows.length; place++)
    for (let j = 0; j < columns.length; j++)
      values[place * columns.length + j] = at(columns[j] as Column, at(rows, place));
  return { rows: rows.length, columns: columns.length, values };
}

/** I − A·A′ (rows × rows): what the fit leaves of the cluster's residuals. */
export function identityLessRowProducts({ rows, columns, values }: Block): Column {
  const out = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? 1 : 0;
      for (let k = 0; k < columns; k++)
        sum -= at(values, i * columns + k) * at(values, j * columns + k);
      out[i * rows + j] = sum;
      out[j * rows + i] = sum;
    }
  return out;
}

/** I − A′·A (columns × columns): what the other clusters know of each direction. */
export function identityLessColumnProducts({ rows, columns, values }: Block): Column {
  const out = new Float64Array(columns * columns);
  for (let i = 0; i < columns; i++) out[i * columns + i] = 1;
  for (let row = 0; row < rows; row++)
    for (let i = 0; i < columns; i++) {
      const left = at(values, row * columns + i);
      for (let j = 0; j < columns && left !== 0; j++)
        out[i * columns + j] = at(out, i * columns + j) - left * at(values, row * columns + j);
    }
  return out;
}

/** square · block, for a square matrix of the block's number of rows. */
export function timesBlock(square: Column, { rows, columns, values }: Block): Block {
  const out = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i++)
    for (let k = 0; k < rows; k++) {
      const factor = at(square, i * rows + k);
      for (let j = 0; j < columns; j++)
        out[i * columns + j] = at(out, i * columns + j) + factor * at(values, k * columns + j);
    }
  return { rows, columns, values: out };
}

/** block · square, for a square matrix of the block's number of columns. */
export function blockTimes({ rows, columns: n, values }: Block, square: Column): Block {
  const out = new Float64Array(rows * n);
  for (let i = 0; i < rows; i++)
    for (let k = 0; k < n; k++) {
      const factor = at(values, i * n + k);
      for (let j = 0; j < n; j++)
        out[i * n + j] = at(out, i * n + j) + factor * at(square, k * n + j);
    }
  return { rows, columns: n, values: out };
}

/** Σ weight · row of the block. */
export function combineRows(weights: Column, { rows, columns, values }: Block): Column {
  const sum = new Float64Array(columns);
  for (let row = 0; row < rows; row++)
    for (let j = 0; j < columns; j++)
      sum[j] = at(sum, j) + at(weights, row) * at(values, row * columns + j);
  return sum;
}

/**
 * The lower Cholesky factor of a positive definite matrix of n × n, or null when a pivot falls to
 * `leastPivot` or below.
 */
export function cholesky(matrix: Column, n: number, leastPivot: number): Column | null {
  const l = matrix.slice();
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = at(l, i * n + j);
      for (let k = 0; k < j; k++) sum -= at(l, i * n + k) * at(l, j * n + k);
      if (i === j && !(sum > leastPivot)) return null;
      l[i * n + j] = i === j ? Math.sqrt(sum) : sum / at(l, j * n + j);
    }
  }
  return l;
}

/** Solves L·L′·x = b in place for every row of a block, each row being one right-hand side b. */
export function choleskySolveRows(l: Column, { rows, columns: n, values }: Block): void {
  for (let row = 0; row < rows; row++) {
    const start = row * n;
    for (let i = 0; i < n; i++) {
      let sum = at(values, start + i);
      for (let k = 0; k < i; k++) sum -= at(l, i * n + k) * at(values, start + k);
      values[start + i] = sum / at(l, i * n + i);
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = at(values, start + i);
      for (let k = i + 1; k < n; k++) sum -= at(l, k * n + i) * at(values, start + k);
      values[start + i] = sum / at(l, i * n + i);
    }
  }
}
