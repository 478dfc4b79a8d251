import { at, type Column } from './design-columns.ts';
import { cholesky, choleskySolveRows } from './sandwich-block.ts';

/**
 * The rows of a design without their zeros. Factors put a single 1 into each row, so that sums over
 * products of columns cost a few operations a row however many levels there are.
 */
export interface SparseRows {
  readonly columns: number;
  /** Where each row begins in the two arrays below; one more entry than rows. */
  readonly starts: Int32Array;
  readonly places: Int32Array;
  readonly values: Column;
}

/** Gathers the non-zero entries of the columns row by row. */
export function sparseRows(columns: readonly Column[]): SparseRows {
  const rows = columns[0]?.length ?? 0;
  const starts = new Int32Array(rows + 1);
  for (const column of columns)
    for (let row = 0; row < rows; row++)
      if (column[row] !== 0) starts[row + 1] = at(starts, row + 1) + 1;
  for (let row = 0; row < rows; row++) starts[row + 1] = at(starts, row + 1) + at(starts, row);
  const places = new Int32Array(at(starts, rows));
  const values = new Float64Array(at(starts, rows));
  const next = starts.slice();
  for (const [place, column] of columns.entries())
    for (let row = 0; row < rows; row++) {
      if (column[row] === 0) continue;
      const slot = at(next, row);
      places[slot] = place;
      values[slot] = at(column, row);
      next[row] = slot + 1;
    }
  return { columns: columns.length, starts, places, values };
}

/** X′·diag(weight)·X, columns × columns, row after row. */
export function weightedGram(
  { columns: n, starts, places, values }: SparseRows,
  weight: Column,
): Column {
  const gram = new Float64Array(n * n);
  for (let row = 0; row < weight.length; row++) {
    const [from, to] = [at(starts, row), at(starts, row + 1)];
    for (let i = from; i < to; i++) {
      const start = at(places, i) * n;
      const factor = at(weight, row) * at(values, i);
      // Columns come in order, so this fills the lower triangle.
      for (let j = from; j <= i; j++) {
        const cell = start + at(places, j);
        gram[cell] = at(gram, cell) + factor * at(values, j);
      }
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) gram[j * n + i] = at(gram, i * n + j);
  return gram;
}

/** X′·factor: one sum for each column. */
export function weightedSums(
  { columns, starts, places, values }: SparseRows,
  factor: Column,
): Column {
  const sums = new Float64Array(columns);
  for (let row = 0; row < factor.length; row++)
    for (let i = at(starts, row); i < at(starts, row + 1); i++) {
      const place = at(places, i);
      sums[place] = at(sums, place) + at(factor, row) * at(values, i);
    }
  return sums;
}

/** x′·M·x for every row x and a symmetric matrix M. */
export function quadraticForms(
  { columns: n, starts, places, values }: SparseRows,
  m: Column,
): Column {
  const forms = new Float64Array(starts.length - 1);
  for (let row = 0; row < forms.length; row++) {
    let sum = 0;
    for (let i = at(starts, row); i < at(starts, row + 1); i++)
      for (let j = at(starts, row); j < at(starts, row + 1); j++)
        sum += at(values, i) * at(values, j) * at(m, at(places, i) * n + at(places, j));
    forms[row] = sum;
  }
  return forms;
}

/** A positive definite matrix, ready to be divided by. */
export interface Solver {
  readonly logDeterminant: number;
  solve(right: Column): Column;
  /** The inverse, row after row. */
  inverse(): Column;
}

/** Beside its own size a pivot this small means that a column is a mixture of the others. */
const LEAST_PIVOT = 1e-13;

/** Cholesky factor of a Gram matrix, columns brought to length 1 first; null when it has none. */
export function solver(gram: Column, n: number): Solver | null {
  const size = Float64Array.from({ length: n }, (_, i) => Math.sqrt(at(gram, i * n + i)));
  const scaled = gram.map((v, cell) => v / (at(size, Math.floor(cell / n)) * at(size, cell % n)));
  const factor = cholesky(scaled, n, LEAST_PIVOT);
  if (factor === null) return null;
  const solveAll = (rows: number, right: Column): Column => {
    const values = right.map((v, cell) => v / at(size, cell % n));
    choleskySolveRows(factor, { rows, columns: n, values });
    return values.map((v, cell) => v / at(size, cell % n));
  };
  const unit = Float64Array.from({ length: n * n }, (_, cell) => (cell % (n + 1) === 0 ? 1 : 0));
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) logDeterminant += 2 * Math.log(at(factor, i * n + i) * at(size, i));
  return {
    logDeterminant,
    solve: (right) => solveAll(1, right),
    inverse: () => solveAll(n, unit),
  };
}
