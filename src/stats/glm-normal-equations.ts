import { at, type Column, pick } from './design-columns.ts';
import { cholesky, choleskySolveRows } from './sandwich-block.ts';

/**
 * The rows of a design without their zeros, each different row once. Factors put a single 1 into a
 * row and leave few different rows, so that sums over products of columns cost little however many
 * rows and levels there are.
 */
export interface SparseRows {
  readonly columns: number;
  /** Which of the different rows each row of the design is. */
  readonly kindOf: Int32Array;
  /** Where each different row begins in the two arrays below; one more entry than such rows. */
  readonly starts: Int32Array;
  readonly places: Int32Array;
  readonly values: Column;
}

/** Gathers the non-zero entries of the columns row by row, equal rows once. */
export function sparseRows(columns: readonly Column[]): SparseRows {
  const rows = columns[0]?.length ?? 0;
  const kinds = new Map<string, number>();
  const kindOf = new Int32Array(rows);
  const starts = [0];
  const places: number[] = [];
  const values: number[] = [];
  for (let row = 0; row < rows; row++) {
    let name = '';
    for (let place = 0; place < columns.length; place++) {
      const value = at(columns[place] as Column, row);
      if (value !== 0) name += value === 1 ? `${place} ` : `${place}:${value} `;
    }
    const known = kinds.get(name);
    kindOf[row] = known ?? kinds.size;
    if (known !== undefined) continue;
    kinds.set(name, kinds.size);
    for (let place = 0; place < columns.length; place++) {
      const value = at(columns[place] as Column, row);
      if (value === 0) continue;
      places.push(place);
      values.push(value);
    }
    starts.push(places.length);
  }
  return {
    columns: columns.length,
    kindOf,
    starts: Int32Array.from(starts),
    places: Int32Array.from(places),
    values: Float64Array.from(values),
  };
}

/** X′·diag(weight)·X, columns × columns, row after row. */
export function weightedGram(sparse: SparseRows, weight: Column): Column {
  const { columns: n, starts, places, values } = sparse;
  const gram = new Float64Array(n * n);
  const summed = summedByKind(sparse, weight);
  for (let kind = 0; kind < summed.length; kind++) {
    const [from, to] = [at(starts, kind), at(starts, kind + 1)];
    for (let i = from; i < to; i++) {
      const start = at(places, i) * n;
      const factor = at(summed, kind) * at(values, i);
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
export function weightedSums(sparse: SparseRows, factor: Column): Column {
  const { columns, starts, places, values } = sparse;
  const sums = new Float64Array(columns);
  const summed = summedByKind(sparse, factor);
  for (let kind = 0; kind < summed.length; kind++)
    for (let i = at(starts, kind); i < at(starts, kind + 1); i++) {
      const place = at(places, i);
      sums[place] = at(sums, place) + at(summed, kind) * at(values, i);
    }
  return sums;
}

function summedByKind({ kindOf, starts }: SparseRows, amounts: Column): Column {
  const summed = new Float64Array(starts.length - 1);
  for (let row = 0; row < amounts.length; row++) {
    const kind = at(kindOf, row);
    summed[kind] = at(summed, kind) + at(amounts, row);
  }
  return summed;
}

/** X·coefficients: one number for each row of the design. */
export function rowSums(sparse: SparseRows, coefficients: Column): Column {
  const { kindOf, starts, places, values } = sparse;
  const ofKind = new Float64Array(starts.length - 1);
  for (let kind = 0; kind < ofKind.length; kind++) {
    let sum = 0;
    for (let i = at(starts, kind); i < at(starts, kind + 1); i++)
      sum += at(coefficients, at(places, i)) * at(values, i);
    ofKind[kind] = sum;
  }
  return pick(ofKind, kindOf);
}

/** x′·M·x for every row x and a symmetric matrix M. */
export function quadraticForms(
  { columns: n, kindOf, starts, places, values }: SparseRows,
  m: Column,
): Column {
  const forms = new Float64Array(starts.length - 1);
  for (let kind = 0; kind < forms.length; kind++) {
    let sum = 0;
    for (let i = at(starts, kind); i < at(starts, kind + 1); i++)
      for (let j = at(starts, kind); j < at(starts, kind + 1); j++)
        sum += at(values, i) * at(values, j) * at(m, at(places, i) * n + at(places, j));
    forms[kind] = sum;
  }
  return pick(forms, kindOf);
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
