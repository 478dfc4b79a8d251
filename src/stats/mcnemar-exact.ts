import { type Basis, type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { betaCdf } from './distributions.ts';
import type { Level } from './interval-level.ts';
import { exactLowerOdds, oddsLimits } from './interval-odds.ts';
import { countOf, type MatchedPairs, NO_PAIR_DIFFERS } from './mcnemar.ts';

/** The conditional odds ratio of paired outcomes with the exact test that goes with it. */
export type PairedOddsRatio = Estimate & {
  /** Standard error of the logarithm; null where the ratio is 0, infinite or not estimable. */
  readonly logStandardError: number | null;
  /** Two-sided exact binomial p that pairs differ either way equally often; null if none differs. */
  readonly p: number | null;
  /** The same with half the chance of the observed split: less cautious. */
  readonly midP: number | null;
};

/**
 * The conditional odds ratio of matched pairs, only-first over only-second, with exact limits and
 * the exact form of McNemar's test. All differing pairs on one side: 0 or ∞ with the other limit
 * finite. No pair differs: not estimable.
 * Source: McNemar 1947; limits of Clopper & Pearson 1934 on the differing pairs, as odds; mid-p as
 * in Fagerland, Lydersen & Laake 2013, BMC Med Res Methodol 13:91.
 */
export function mcnemarExact(pairs: MatchedPairs, { level }: Level): PairedOddsRatio {
  const basis: Basis = {
    level,
    method: 'mcnemar-exact',
    n: countOf(pairs),
    exposure: null,
    notes: [],
  };
  const { onlyFirst, onlySecond } = pairs;
  if (onlyFirst + onlySecond === 0)
    return { ...notEstimable(NO_PAIR_DIFFERS, basis), logStandardError: null, p: null, midP: null };
  const limits = oddsLimits(exactLowerOdds, { wins: onlyFirst, losses: onlySecond, level });
  const finite = onlyFirst > 0 && onlySecond > 0;
  return {
    ...estimated({ ...basis, estimate: onlyFirst / onlySecond, ...limits }),
    logStandardError: finite ? Math.sqrt(1 / onlyFirst + 1 / onlySecond) : null,
    ...binomialHalf(Math.min(onlyFirst, onlySecond), onlyFirst + onlySecond),
  };
}

/** Two-sided p of at most `fewer` successes among n at chance ½; twice a tail, which is symmetric. */
function binomialHalf(fewer: number, n: number): { readonly p: number; readonly midP: number } {
  const atMost = betaCdf(0.5, n - fewer, fewer + 1);
  const below = fewer === 0 ? 0 : betaCdf(0.5, n - fewer + 1, fewer);
  return { p: Math.min(1, 2 * atMost), midP: Math.min(1, atMost + below) };
}
