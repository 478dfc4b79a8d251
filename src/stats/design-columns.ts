/** Arithmetic on whole columns of numbers, the form in which every model here keeps its data. */

/** One number for each row of the data. */
export type Column = Float64Array;

/** Sum over rows of a·b. Both columns have the same length. */
export function dot(a: Column, b: Column): number {
  let sum = 0;
  for (let row = 0; row < a.length; row++) sum += (a[row] as number) * (b[row] as number);
  return sum;
}

/** Adds `factor`·`source` to `target`, in place. */
export function addScaled(target: Column, factor: number, source: Column): void {
  for (let row = 0; row < target.length; row++)
    target[row] = (target[row] as number) + factor * (source[row] as number);
}

/** Row by row a·b, as a new column. */
export function product(a: Column, b: Column): Column {
  const products = new Float64Array(a.length);
  for (let row = 0; row < a.length; row++) products[row] = (a[row] as number) * (b[row] as number);
  return products;
}

/** Σ over columns of weight·column: a linear predictor. A new column of `rows` numbers. */
export function combine(
  columns: readonly Column[],
  weights: ArrayLike<number>,
  rows: number,
): Column {
  const sum = new Float64Array(rows);
  for (const [at, column] of columns.entries()) addScaled(sum, weights[at] as number, column);
  return sum;
}

/** The numbers at the given rows, in that order. */
export function pick(values: ArrayLike<number>, rows: ArrayLike<number>): Column {
  const picked = new Float64Array(rows.length);
  for (let place = 0; place < rows.length; place++)
    picked[place] = values[rows[place] as number] as number;
  return picked;
}

/** The number at a place that the caller knows to exist; keeps index arithmetic readable. */
export const at = (values: ArrayLike<number>, index: number): number => values[index] as number;

/** Sum of all numbers. */
export function total(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] as number;
  return sum;
}
