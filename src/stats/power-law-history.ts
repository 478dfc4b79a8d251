import { at, type Column, total } from './design-columns.ts';

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
  readonly ends: WeightedAges;
  readonly breaks: WeightedAges;
  /** Sum of the break weights: the number of breaks. */
  readonly breakCount: number;
  readonly oldest: number;
}

/** Distinct ages above 0, rising, with their logarithms and what each weighs, which may be 0. */
export interface WeightedAges {
  readonly ages: Column;
  readonly logs: Column;
  readonly weights: Column;
}

/**
 * Adds stretches up by age, each counted once, which makes the likelihood quick however many trips
 * there are.
 */
export function wearTotals(stretches: readonly WearStretch[]): WearTotals {
  return weightedTotals(stretches)(new Float64Array(stretches.length).fill(1));
}

/**
 * The same for stretches that count several times or not at all, as a resampled season's do: `times`
 * has one number for each stretch. Their ages are sorted once, however many seasons are asked for.
 */
export function weightedTotals(stretches: readonly WearStretch[]): (times: Column) => WearTotals {
  const ends = addingByAge(
    stretches.map(({ from, to }) => [
      [to, 1],
      [from, -1],
    ]),
  );
  const breaks = addingByAge(stretches.map((stretch) => stretch.breaks.map((age) => [age, 1])));
  return (times) => {
    const [ofEnds, ofBreaks] = [ends(times), breaks(times)];
    const last = ofEnds.weights.findLastIndex((weight) => weight !== 0);
    return {
      ends: ofEnds,
      breaks: ofBreaks,
      breakCount: total(ofBreaks.weights),
      oldest: ofEnds.ages[last] ?? 0,
    };
  };
}

/** Adds up by age what each stretch brings to which age. */
function addingByAge(brought: readonly (readonly (readonly [number, number])[])[]) {
  const parts = brought.flatMap((ofStretch, stretch) =>
    ofStretch.filter(([age]) => age > 0).map(([age, weight]) => ({ stretch, age, weight })),
  );
  const ages = Float64Array.from(new Set(parts.map(({ age }) => age))).sort();
  const places = new Map([...ages].map((age, place) => [age, place]));
  const placeOf = Int32Array.from(parts, ({ age }) => places.get(age) ?? 0);
  const stretchOf = Int32Array.from(parts, ({ stretch }) => stretch);
  const weightOf = Float64Array.from(parts, ({ weight }) => weight);
  const logs = ages.map(Math.log);
  return (times: Column): WeightedAges => {
    const weights = new Float64Array(ages.length);
    for (let part = 0; part < weightOf.length; part++) {
      const place = at(placeOf, part);
      weights[place] = at(weights, place) + at(weightOf, part) * at(times, at(stretchOf, part));
    }
    return { ages, logs, weights };
  };
}

/**
 * Throws on a stretch that ends before it starts, on a break outside its stretch, and on a grouped
 * age that is no whole number of steps.
 */
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
