import {
  negativeBinomialLogPmf,
  negativeBinomialTails,
} from './count-distribution-negative-binomial.ts';

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
 * more than its distinct numbers. Throws on a use that is no whole number, 0 or more.
 * Source: Conrad 1976, J. R. Stat. Soc. D 25:199 (censored sales and the newsvendor; from memory).
 */
export function countLikelihood(trips: readonly TripUse[]): CountLikelihood {
  const times = new Map<string, TripUse & { times: number }>();
  for (const { used, ranOut } of informative(trips)) {
    if (!(Number.isInteger(used) && used >= 0))
      throw new RangeError(`Use on a trip is a whole number, 0 or more, not ${used}.`);
    const key = `${used} ${ranOut}`;
    times.set(key, { used, ranOut, times: (times.get(key)?.times ?? 0) + 1 });
  }
  const distinct = [...times.values()].sort(
    (a, b) => a.used - b.used || Number(a.ranOut) - Number(b.ranOut),
  );
  return (mean, size) =>
    distinct.reduce((sum, { used, ranOut, times: weight }) => {
      const law = { mean, size };
      const log = ranOut
        ? negativeBinomialTails(used - 1, law).logUpper
        : negativeBinomialLogPmf(used, law);
      return sum + weight * log;
    }, 0);
}
