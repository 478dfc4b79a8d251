import {
  type NegativeBinomial,
  negativeBinomialLogPmf,
  negativeBinomialTails,
} from './count-distribution-negative-binomial.ts';
import { chancesBelow } from './count-distribution-walk.ts';

/**
 * The use of one trip: a whole number, 0 or more. Where it `ranOut` before the day was over, the
 * need was at least `used`, nobody knows how much more (right-censored).
 */
export interface TripUse {
  readonly used: number;
  readonly ranOut: boolean;
}

/** The trips that say something: running out of nothing does not. */
export const informative = (trips: readonly TripUse[]): readonly TripUse[] =>
  trips.filter(({ used, ranOut }) => used !== 0 || !ranOut);

/** ln of the likelihood of one mean (above 0) and one size (above 0; Infinity for Poisson). */
export type CountLikelihood = (mean: number, size: number) => number;

/**
 * The log-likelihood of trips' use under a negative binomial law: P(use) for a trip that had enough,
 * P(need ≥ use) for one that ran out. Equal trips are counted together, so that a long log costs no
 * more than its distinct numbers; of trips that had enough, all that depends on the mean is their
 * number and their sum, so that many means of one size cost little more than one.
 * Throws on a use that is no whole number, 0 or more.
 * Source: Conrad 1976, J. R. Stat. Soc. D 25:199 (censored sales and the newsvendor; from memory).
 */
export function countLikelihood(trips: readonly TripUse[]): CountLikelihood {
  const told = informative(trips);
  const enough = distinctUses(told.filter(({ ranOut }) => !ranOut));
  const short = distinctUses(told.filter(({ ranOut }) => ranOut));
  const shortUses = short.map(({ used }) => used);
  const count = enough.reduce((sum, { times }) => sum + times, 0);
  const total = enough.reduce((sum, { used, times }) => sum + times * used, 0);
  const mean0 = Math.max(total, 0.5) / Math.max(count, 1);
  const atMean0 = remember((size: number) =>
    enough.reduce(
      (sum, { used, times }) => sum + times * negativeBinomialLogPmf(used, { mean: mean0, size }),
      0,
    ),
  );
  return (mean, size) => {
    const moved = total * Math.log(mean / mean0) - fallOf(mean, size) + fallOf(mean0, size);
    return atMean0(size) + moved + logShort(short, shortUses, { mean, size });
  };

  /** The part of the log-likelihood that a larger mean takes away. */
  function fallOf(mean: number, size: number): number {
    if (size === Number.POSITIVE_INFINITY) return count * mean;
    return (total + count * size) * Math.log1p(mean / size);
  }
}

interface DistinctUse {
  readonly used: number;
  readonly times: number;
}

/** Each number used, in rising order, and on how many trips. */
function distinctUses(trips: readonly TripUse[]): DistinctUse[] {
  const times = new Map<number, number>();
  for (const { used } of trips) {
    if (!(Number.isInteger(used) && used >= 0))
      throw new RangeError(`Use on a trip is a whole number, 0 or more, not ${used}.`);
    times.set(used, (times.get(used) ?? 0) + 1);
  }
  return [...times].map(([used, n]) => ({ used, times: n })).sort((a, b) => a.used - b.used);
}

/** The last answer of a costly function, for calls that come with the same argument in a row. */
function remember(of: (size: number) => number): (size: number) => number {
  let last: { readonly size: number; readonly value: number } | null = null;
  return (size) => {
    if (last?.size !== size) last = { size, value: of(size) };
    return last.value;
  };
}

/** Where less than this is left above, 1 − P(need < use) has lost digits that are wanted. */
const LEAST_LEFT = 1e-4;

/** Σ ln P(need ≥ use) over the trips that ran out; `uses` are the numbers of `short`. */
function logShort(
  short: readonly DistinctUse[],
  uses: readonly number[],
  law: NegativeBinomial,
): number {
  const below = chancesBelow(law, uses);
  return short.reduce((sum, { used, times }, at) => {
    const chance = below?.[at] ?? 1;
    const log =
      1 - chance > LEAST_LEFT ? Math.log1p(-chance) : negativeBinomialTails(used - 1, law).logUpper;
    return sum + times * log;
  }, 0);
}
