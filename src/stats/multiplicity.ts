/**
 * Corrections for looking at many comparisons at once. Each function takes p-values in any order
 * (0 to 1, ties allowed) and gives adjusted ones in the same order, 0 to 1: a comparison stands at
 * level α where its adjusted p is at most α. No p-values give none; a p outside 0 to 1, NaN
 * included, is a programmer's mistake and throws.
 */

/**
 * Holm's step-down p-values: the chance of even one false alarm among all comparisons stays at α,
 * whatever ties them together.
 * Source: Holm 1979, Scand. J. Stat. 6:65.
 */
export function holm(pValues: readonly number[]): number[] {
  const order = ascending(pValues);
  const adjusted = new Array<number>(pValues.length);
  let highest = 0;
  order.forEach((place, rank) => {
    highest = Math.max(highest, (pValues.length - rank) * (pValues[place] as number));
    adjusted[place] = Math.min(1, highest);
  });
  return adjusted;
}

/**
 * Benjamini and Hochberg's step-up p-values: of the comparisons that stand, a share of at most α
 * are false alarms on average, if the comparisons are independent or move together.
 * Source: Benjamini & Hochberg 1995, J. R. Stat. Soc. B 57:289.
 */
export function benjaminiHochberg(pValues: readonly number[]): number[] {
  const order = ascending(pValues).reverse();
  const adjusted = new Array<number>(pValues.length);
  let lowest = 1;
  order.forEach((place, rank) => {
    const share = pValues.length / (pValues.length - rank);
    lowest = Math.min(lowest, share * (pValues[place] as number));
    adjusted[place] = lowest;
  });
  return adjusted;
}

/**
 * Bonferroni's p-values, p times their number: like Holm's, never smaller, but with intervals that
 * go with them (see `bonferroniLevel`).
 * Source: Dunn 1961, J. Am. Stat. Assoc. 56:52 (from memory).
 */
export function bonferroni(pValues: readonly number[]): number[] {
  checkPValues(pValues);
  return pValues.map((p) => Math.min(1, pValues.length * p));
}

/**
 * The level at which each of `count` intervals is drawn so that all hold together at `level`,
 * e.g. 0.99 for five intervals at 0.95.
 */
export function bonferroniLevel(level: number, count: number): number {
  if (!(level > 0 && level < 1 && count >= 1))
    throw new RangeError(`${count} intervals cannot hold together at level ${level}.`);
  return 1 - (1 - level) / count;
}

/** Places of the p-values from the smallest up; ties keep their order. */
function ascending(pValues: readonly number[]): number[] {
  checkPValues(pValues);
  return pValues.map((_, place) => place).sort((i, j) => (pValues[i] ?? 0) - (pValues[j] ?? 0));
}

function checkPValues(pValues: readonly number[]): void {
  const wrong = pValues.find((p) => !(p >= 0 && p <= 1));
  if (wrong !== undefined) throw new RangeError(`A p-value lies between 0 and 1, not at ${wrong}.`);
}
