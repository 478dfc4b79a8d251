import { at, type Column } from './design-columns.ts';
import {
  type Block,
  cholesky,
  choleskySolveRows,
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
 * Rows of one cluster adjusted by CR3: Q·(I − Q′Q)⁻¹, which equals (I − QQ′)⁻¹·Q; directions the
 * cluster decides alone are left out.
 * Source: Bell & McCaffrey 2002; the two forms are equal by the push-through identity.
 */
export function adjustCr3(q: Block): LeftOut {
  const left = identityLessColumnProducts(q);
  const factor = cholesky(left, q.columns, NOTHING_LEFT);
  if (factor !== null) {
    const adjusted = { ...q, values: q.values.slice() };
    choleskySolveRows(factor, adjusted);
    return { adjusted, lone: [] };
  }
  return leaveOutLone(q, left);
}

function leaveOutLone(q: Block, left: Column): LeftOut {
  const n = q.columns;
  const { values, vectors } = symmetricEigen(left, n);
  const vector = (index: number): Column => vectors.slice(index * n, (index + 1) * n);
  const indexes = Array.from({ length: n }, (_, index) => index);
  const inverse = new Float64Array(n * n);
  for (const index of indexes.filter((i) => at(values, i) > NOTHING_LEFT))
    for (const [i, a] of vector(index).entries())
      for (const [j, b] of vector(index).entries())
        inverse[i * n + j] = at(inverse, i * n + j) + (a * b) / at(values, index);
  const out = new Float64Array(q.values.length);
  for (let cell = 0; cell < out.length; cell++) {
    const start = cell - (cell % n);
    let sum = 0;
    for (let k = 0; k < n; k++) sum += at(q.values, start + k) * at(inverse, k * n + (cell % n));
    out[cell] = sum;
  }
  const lone = indexes.filter((i) => !(at(values, i) > NOTHING_LEFT)).map(vector);
  return { adjusted: { ...q, values: out }, lone };
}
