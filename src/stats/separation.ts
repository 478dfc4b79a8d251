import type { Matrix } from 'ml-matrix';
import { at, type Column, combine, dot } from './design-columns.ts';
import { pivotedQr, solveUpper } from './pivoted-qr.ts';
import { shortestPositiveSum } from './separation-nnls.ts';

/** What keeps maximum likelihood from a finite answer. */
export interface Separation {
  /** complete: every row can be fitted without error; quasi: some of the rows. */
  readonly extent: 'complete' | 'quasi';
  /** Columns whose coefficients run off to infinity, by their place in the input. */
  readonly columns: readonly number[];
  /** Rows fitted without error in the limit, by their place in the input. */
  readonly rows: readonly number[];
}

/** Below this a product of unit vectors counts as zero. */
const ZERO = 1e-8;
/** Rows whose unit vectors add up to less than this balance out: no separation. */
const BALANCED = 1e-6;

/**
 * Finds out, by a certificate and not by large coefficients, whether some direction of the
 * coefficients never lowers the likelihood: all-success rows may only rise along it, all-failure
 * rows (and counts of 0) only fall, all others must not move.
 * @param columns linearly independent columns
 * @param edges for each row 1 (all success), −1 (all failure or a count of 0) or 0 (in between)
 * @returns null when the maximum-likelihood estimate is finite
 * Source: Albert & Anderson 1984, Biometrika 71:1; for counts Correia, Guimarães & Zylkin 2019
 * (from memory). The search is by least squares under sign constraints.
 */
export function findSeparation(
  columns: readonly Column[],
  edges: ArrayLike<number>,
): Separation | null {
  const { q, r } = pivotedQr(columns);
  const free = freeDirections(q, edges);
  let rows = edgeRows(q, edges, free);
  const separated: number[] = [];
  const moving = new Set<number>();
  while (rows.length > 0) {
    const sum = shortestPositiveSum(rows.map((row) => row.vector));
    const length = Math.sqrt(dot(sum, sum));
    if (length < BALANCED) break;
    const direction = sum.map((value) => value / length);
    const gains = rows.map((row) => dot(row.vector, direction));
    const found = rows.filter((_, index) => at(gains, index) > ZERO);
    separated.push(...found.map((row) => row.row));
    for (const column of divergent(combine(free, direction, q.length), r, columns))
      moving.add(column);
    rows = rows.filter((_, index) => at(gains, index) <= ZERO);
  }
  if (separated.length === 0) return null;
  return {
    extent: separated.length === edges.length ? 'complete' : 'quasi',
    columns: [...moving].sort((a, b) => a - b),
    rows: separated.sort((a, b) => a - b),
  };
}

/** Orthonormal directions of the coefficients that leave every in-between row where it is. */
function freeDirections(q: readonly Column[], edges: ArrayLike<number>): Column[] {
  const held: Column[] = [];
  for (let row = 0; row < edges.length; row++)
    if (edges[row] === 0) held.push(Float64Array.from(q, (column) => at(column, row)));
  const fixed = pivotedQr(held, ZERO).q;
  const units = q.map((_, axis) => Float64Array.from(q, (_, i) => (i === axis ? 1 : 0)));
  return pivotedQr([...fixed, ...units], ZERO).q.slice(fixed.length);
}

interface EdgeRow {
  readonly row: number;
  /** The way this row may move, in the free directions, length 1. */
  readonly vector: Column;
}

function edgeRows(
  q: readonly Column[],
  edges: ArrayLike<number>,
  free: readonly Column[],
): EdgeRow[] {
  const rows: EdgeRow[] = [];
  for (let row = 0; row < edges.length && free.length > 0; row++) {
    const edge = at(edges, row);
    if (edge === 0) continue;
    const place = Float64Array.from(q, (column) => at(column, row));
    const moved = Float64Array.from(free, (direction) => edge * dot(direction, place));
    const length = Math.sqrt(dot(moved, moved));
    if (length > ZERO * Math.sqrt(dot(place, place)))
      rows.push({ row, vector: moved.map((value) => value / length) });
  }
  return rows;
}

/** Columns with a part in a direction given in the orthonormal coordinates. */
function divergent(direction: Column, r: Matrix, columns: readonly Column[]): number[] {
  const coefficients = solveUpper(r, direction);
  const sizes = columns.map(
    (column, index) => Math.abs(at(coefficients, index)) * Math.sqrt(dot(column, column)),
  );
  const largest = Math.max(...sizes);
  return [...sizes.keys()].filter((index) => at(sizes, index) > 1e-6 * largest);
}
