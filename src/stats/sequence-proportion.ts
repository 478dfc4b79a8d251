import type { Interval } from '../base/estimate.ts';
import { logBeta } from './distributions.ts';
import type { Trials } from './empirical-bayes-tarone.ts';
import { type Level, tailArea } from './interval-level.ts';
import { findRoot } from './root.ts';

/** How bets are spread over the proportions that might be true, when p is under test. */
export type BetaMixture = (p: number) => { readonly a: number; readonly b: number };

/** Bets spread evenly over all proportions. */
export const evenMixture: BetaMixture = () => ({ a: 1, b: 1 });

/**
 * Bets spread so that the interval is tightest after about `trials` trials.
 * Source: Howard, Ramdas, McAuliffe & Sekhon 2021, Ann. Stat. 49:1055, section 3.2 and 3.5.
 */
export function tunedMixture(trials: number): BetaMixture {
  const log = 2 * Math.log(20);
  return (p) => {
    const variance = p * (1 - p);
    const r = Math.max((variance * trials) / (log + Math.log1p(log)) - variance, 1e-3 * variance);
    return { a: r / (1 - p), b: r / p };
  };
}

/**
 * How much a bettor's capital has grown against "the proportion is p": above 1/α only with
 * probability α if p is true, however often one looks (an e-value). Trials are independent: bites
 * of one trip are not, so on a log this is for comparison only.
 * Source: Robbins 1970, Ann. Math. Stat. 41:1397; Ville 1939 (the inequality).
 */
export function proportionCapital(
  trials: Trials,
  { p, mixture }: { readonly p: number; readonly mixture: BetaMixture },
): number {
  return Math.exp(logCapital(trials, p, mixture));
}

/**
 * A confidence sequence for a proportion of independent trials: the limits after these trials hold
 * together with those at every earlier and later look. Without trials 0 to 1; with no successes the
 * lower limit is 0, with no failures the upper one 1.
 * Source: as `proportionCapital`.
 */
export function proportionSequence(
  trials: Trials,
  { level, mixture }: Level & { readonly mixture: BetaMixture },
): Interval {
  const { successes, trials: n } = trials;
  const threshold = Math.log(2 * tailArea(level));
  const excess = (p: number): number => logCapital(trials, p, mixture) + threshold;
  const limit = (end: number): number => {
    const inside = Math.min(1 - NEAR_END, Math.max(NEAR_END, successes / n));
    if (n === 0 || !(excess(end) > 0)) return Math.round(end);
    return findRoot(excess, { lower: Math.min(end, inside), upper: Math.max(end, inside) });
  };
  return { lower: limit(NEAR_END), upper: limit(1 - NEAR_END) };
}

/** As near to 0 and 1 as limits are sought; a capital still small there grows no further. */
const NEAR_END = 1e-12;

function logCapital({ successes, trials }: Trials, p: number, mixture: BetaMixture): number {
  const { a, b } = mixture(p);
  const failures = trials - successes;
  const won = logBeta(a + successes, b + failures) - logBeta(a, b);
  const fair =
    (successes > 0 ? successes * Math.log(p) : 0) + (failures > 0 ? failures * Math.log1p(-p) : 0);
  return won - fair;
}
