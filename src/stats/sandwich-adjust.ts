import { at, type Column } from './design-columns.ts';
import {
  type Block,
  blockTimes,
  cholesky,
  choleskySolveRows,
  combineRows,
  identityLessColumnProducts,
  identityLessRowProducts,
  timesBlock,
} from './sandwich-block.ts';
import { inverseRoot, symmetricEigen } from './sandwich-root.ts';

/** From this many rows on, a cluster's repeated rows are put together first. */
const MANY_ROWS = 60;
/** Share of its information below which a direction is left to one cluster. */
const NOTHING_LEFT = 1e-9;

/**
 * Rows of one cluster adjusted by CR2: V·[V(I − QQ′)V]^(−1/2)·Q with V the working variances.
 * @param q the cluster's rows of the orthonormal weighted columns
 * @param variance variance of each row's response under the model
 * Source: Bell & McCaffrey 2002; Pustejovsky & Tipton 2018, eq. 8 with V the inverse weights.
 */
export function adjustCr2(q: Block, variance: Column): Block {
  if (q.rows < MANY_ROWS) return adjustDistinct(q, variance);
  const { first, kindOf } = alike(q, variance);
  const root = first.map((_, kind) => Math.sqrt(kindOf.filter((other) => other === kind).length));
  // Rows alike in everything move together: k of them act as one row √k times as long.
  const reduced = scaledRows(q, first, (kind) => at(root, kind));
  const adjusted = adjustDistinct(
    reduced,
    Float64Array.from(first, (row) => at(variance, row)),
  );
  return scaledRows(adjusted, kindOf, (row) => 1 / at(root, at(kindOf, row)));
}

function adjustDistinct(q: Block, variance: Column): Block {
  const product = timesBlock(inverseRoot(identityLessRowProducts(q), variance), q);
  const { values, columns } = product;
  return { ...product, values: values.map((v, i) => v * at(variance, Math.floor(i / columns))) };
}

/** Rows of a block picked (and repeated) by place, each times a factor. */
function scaledRows(
  { columns, values }: Block,
  places: readonly number[],
  factor: (row: number) => number,
): Block {
  const out = new Float64Array(places.length * columns);
  for (const [row, place] of places.entries())
    for (let j = 0; j < columns; j++)
      out[row * columns + j] = at(values, place * columns + j) * factor(row);
  return { rows: places.length, columns, values: out };
}

/** The first row of every kind of row, and the kind of each row. */
function alike({ columns, values }: Block, variance: Column) {
  const kinds = new Map<string, number>();
  const first: number[] = [];
  const kindOf = Array.from(variance, (spread, row) => {
    const key = `${spread}|${values.subarray(row * columns, (row + 1) * columns).join('|')}`;
    const kind = kinds.get(key) ?? kinds.size;
    if (kind === kinds.size) first.push(row);
    kinds.set(key, kind);
    return kind;
  });
  return { first, kindOf };
}

/** A cluster's rows under CR3, and the directions of the coefficients that it alone decides. */
export interface LeftOut {
  readonly adjusted: Block;
  /** Unit vectors; none in the usual case. */
  readonly lone: readonly Column[];
}

/**
 * Rows of one cluster adjusted by CR3: (I − QQ′)⁻¹·Q, which equals Q·(I − Q′Q)⁻¹; the smaller of the
 * two matrices is inverted. Directions the cluster decides alone are left out.
 * Source: Bell & McCaffrey 2002; the two forms are equal by the push-through identity.
 */
export function adjustCr3(q: Block): LeftOut {
  if (q.rows > q.columns) {
    const { inverse, nothing } = pseudoInverse(identityLessColumnProducts(q), q.columns);
    return { adjusted: blockTimes(q, inverse), lone: nothing };
  }
  const { inverse, nothing } = pseudoInverse(identityLessRowProducts(q), q.rows);
  // Where I − QQ′ takes a combination of rows to 0, that combination of Q is the direction itself.
  return { adjusted: timesBlock(inverse, q), lone: nothing.map((u) => combineRows(u, q)) };
}

/** The directions that this cluster alone decides, found without the adjustment in the usual case. */
export function loneDirections(q: Block): readonly Column[] {
  const byRows = q.rows <= q.columns;
  const left = byRows ? identityLessRowProducts(q) : identityLessColumnProducts(q);
  const full = cholesky(left, byRows ? q.rows : q.columns, NOTHING_LEFT) !== null;
  return full ? [] : adjustCr3(q).lone;
}

/** The inverse on the directions that are left, and the unit directions of which nothing is. */
function pseudoInverse(matrix: Column, n: number) {
  const factor = cholesky(matrix, n, NOTHING_LEFT);
  const inverse = new Float64Array(n * n);
  if (factor !== null) {
    for (let i = 0; i < n; i++) inverse[i * n + i] = 1;
    choleskySolveRows(factor, { rows: n, columns: n, values: inverse });
    return { inverse, nothing: [] };
  }
  const { values, vectors } = symmetricEigen(matrix, n);
  const nothing: Column[] = [];
  for (const [index, value] of values.entries()) {
    const vector = vectors.slice(index * n, (index + 1) * n);
    if (!(value > NOTHING_LEFT)) nothing.push(vector);
    else
      for (const [i, a] of vector.entries())
        for (const [j, b] of vector.entries())
          inverse[i * n + j] = at(inverse, i * n + j) + (a * b) / value;
  }
  return { inverse, nothing };
}
