import type { Interval } from '../base/estimate.ts';
import { betaCdf, fQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import { findRoot } from './root.ts';

/** Lower limit of the odds of winning, from counts of wins (above 0) and losses. */
export type LowerOdds = (wins: number, losses: number, tail: number) => number;

/** What the limits of odds are worked out from; counts 0 or more, not both 0. */
export interface OddsCounts extends Level {
  readonly wins: number;
  readonly losses: number;
}

/**
 * Both limits of the odds of winning by one rule for the lower one: the upper limit is the
 * reciprocal of the lower limit of losing. No wins: lower limit 0; no losses: upper limit Infinity.
 */
export function oddsLimits(lower: LowerOdds, { wins, losses, level }: OddsCounts): Interval {
  const tail = tailArea(level);
  return {
    lower: wins === 0 ? 0 : lower(wins, losses, tail),
    upper: losses === 0 ? Number.POSITIVE_INFINITY : 1 / lower(losses, wins, tail),
  };
}

/**
 * Odds at which so many wins or more have the chance `tail`.
 * Source: Clopper & Pearson 1934, as an F quantile.
 */
export function exactLowerOdds(wins: number, losses: number, tail: number): number {
  return (wins / (losses + 1)) * fQuantile(tail, 2 * wins, 2 * (losses + 1));
}

/**
 * Odds at which more wins, and half of exactly so many, have the chance `tail`.
 * Source: Lancaster 1961 (mid-P; citation from memory).
 */
export function midPLowerOdds(wins: number, losses: number, tail: number): number {
  const excess = (logOdds: number): number => {
    const share = 1 / (1 + Math.exp(-logOdds));
    const more = losses === 0 ? 0 : betaCdf(share, wins + 1, losses);
    return (betaCdf(share, wins, losses + 1) + more) / 2 - tail;
  };
  // Half a chance is more than none and at most the whole, so the root lies between these two; the
  // margin is for rounding.
  const lower = Math.log(exactLowerOdds(wins, losses, tail)) - 1e-6;
  const upper = Math.log(exactLowerOdds(wins, losses, 2 * tail)) + 1e-6;
  return Math.exp(findRoot(excess, { lower, upper }));
}
