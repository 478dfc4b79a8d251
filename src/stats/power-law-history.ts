/**
 * A stretch of one spool's life under watch: from age `from` (not included) to age `to`, with the
 * ages at which the line broke in it. A spool watched since it was new is one stretch from 0; cut
 * by trip, the stretches of a spool carry on where the one before ended.
 */
export interface WearStretch {
  readonly from: number;
  readonly to: number;
  readonly breaks: readonly number[];
}

/**
 * How ages were written down. `exact`: at any moment (line-hours). `grouped`: counted in whole
 * steps of `width` (fights, trips), so a break "at age 7" fell somewhere between 6 and 7.
 */
export type AgeScale =
  | { readonly kind: 'exact' }
  | { readonly kind: 'grouped'; readonly width: number };

/** All that a likelihood needs of many stretches: age by age, how much of it counts. */
export interface WearTotals {
  /** Distinct ends of stretches with their weight: + for ends, − for starts; starts at 0 fall out. */
  readonly ends: readonly Weighted[];
  readonly breaks: readonly Weighted[];
  /** Sum of the break weights: the number of breaks. */
  readonly breakCount: number;
  readonly oldest: number;
}

export interface Weighted {
  readonly age: number;
  readonly weight: number;
}

/**
 * Adds stretches up by age, each as often as `weights` says (once by default), which makes the
 * likelihood quick however many trips there are, and a resampled season as quick as the real one.
 * Throws on a stretch that ends before it starts, on a break outside its stretch, and on a grouped
 * age that is no whole number of steps.
 */
export function wearTotals(
  stretches: readonly WearStretch[],
  weights?: readonly number[],
): WearTotals {
  const ends = new Map<number, number>();
  const breaks = new Map<number, number>();
  const add = (into: Map<number, number>, age: number, weight: number): void => {
    into.set(age, (into.get(age) ?? 0) + weight);
  };
  stretches.forEach(({ from, to, breaks: ages }, i) => {
    const weight = weights?.[i] ?? 1;
    if (from > 0) add(ends, from, -weight);
    add(ends, to, weight);
    for (const age of ages) add(breaks, age, weight);
  });
  const list = (from: Map<number, number>): Weighted[] =>
    [...from]
      .filter(([age, weight]) => weight !== 0 && age > 0)
      .map(([age, weight]) => ({ age, weight }))
      .sort((a, b) => a.age - b.age);
  const summed = { ends: list(ends), breaks: list(breaks) };
  return {
    ...summed,
    breakCount: summed.breaks.reduce((sum, { weight }) => sum + weight, 0),
    oldest: summed.ends.at(-1)?.age ?? 0,
  };
}

/** Throws where a history contradicts itself; see `wearTotals`. */
export function checkHistory(stretches: readonly WearStretch[], scale: AgeScale): void {
  for (const { from, to, breaks } of stretches) {
    if (!(from >= 0 && to >= from && Number.isFinite(to)))
      throw new RangeError(`A stretch of wear runs from 0 or more upwards, not ${from} to ${to}.`);
    const outside = breaks.find((age) => !(age > from && age <= to));
    if (outside !== undefined)
      throw new RangeError(`A break at age ${outside} lies outside its stretch, ${from} to ${to}.`);
    if (scale.kind === 'exact') continue;
    const { width } = scale;
    const odd = [from, to, ...breaks].find(
      (age) => Math.abs(age / width - Math.round(age / width)) > 1e-9,
    );
    if (odd !== undefined)
      throw new RangeError(`A grouped age is a whole number of steps of ${width}, not ${odd}.`);
  }
}
