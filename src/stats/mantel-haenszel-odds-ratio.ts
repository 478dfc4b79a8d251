import { notEstimable } from '../base/estimate.ts';
import type { Level } from './interval-level.ts';
import {
  type StratifiedRatio,
  type Stratum,
  stratumCount,
  total,
  weighedStrata,
} from './mantel-haenszel-strata.ts';
import { logNormalRatio } from './ratio-of-log-normal.ts';

/**
 * The Mantel–Haenszel odds ratio over strata, first group against second, with the Robins–Breslow–
 * Greenland interval, which holds both for few large strata and for many small ones.
 * Not estimable where no stratum sets an event of one group against a non-event of the other in
 * both directions: the ratio would be 0 or infinite without any limit from this formula.
 * Source: Mantel & Haenszel 1959; Robins, Breslow & Greenland 1986, Biometrics 42:311.
 */
export function mantelHaenszelOddsRatio(
  strata: readonly Stratum[],
  { level }: Level,
): StratifiedRatio {
  const count = stratumCount(strata);
  const used = weighedStrata(strata);
  const n = total(used, (stratum) => stratum.n);
  const basis = { level, method: 'mantel-haenszel-odds-ratio', n, exposure: null, notes: [] };
  // R and S, P and Q of the paper: what speaks for either group, and the agreement of the table.
  const terms = used.map((stratum) => {
    const [misses1, misses2] = [stratum.n1 - stratum.x1, stratum.n2 - stratum.x2];
    return {
      forFirst: stratum.x1 * (misses2 / stratum.n),
      forSecond: stratum.x2 * (misses1 / stratum.n),
      along: (stratum.x1 + misses2) / stratum.n,
      across: (stratum.x2 + misses1) / stratum.n,
    };
  });
  const R = total(terms, ({ forFirst }) => forFirst);
  const S = total(terms, ({ forSecond }) => forSecond);
  if (R === 0 || S === 0) return { ...notEstimable(whyNoOddsRatio(R, S), basis), ...count };
  const logVariance =
    total(terms, ({ forFirst, along }) => along * forFirst) / (2 * R * R) +
    total(
      terms,
      ({ forFirst, forSecond, along, across }) => along * forSecond + across * forFirst,
    ) /
      (2 * R * S) +
    total(terms, ({ forSecond, across }) => across * forSecond) / (2 * S * S);
  return { ...logNormalRatio({ estimate: R / S, logVariance }, basis), ...count };
}

/** Why one of the two sums is 0, in a sentence. */
function whyNoOddsRatio(forFirst: number, forSecond: number): string {
  if (forFirst === forSecond)
    return 'No stratum holds both groups and both outcomes, so no odds ratio can be formed.';
  const [more, less] = forFirst > 0 ? ['first', 'second'] : ['second', 'first'];
  return `Every stratum speaks for the ${more} group and none for the ${less}, so the odds ratio has no finite limits here.`;
}
