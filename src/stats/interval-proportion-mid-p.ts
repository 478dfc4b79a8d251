import type { Estimate } from '../base/estimate.ts';
import type { Level } from './interval-level.ts';
import { midPLowerOdds, oddsLimits } from './interval-odds.ts';
import { proportionEstimate } from './interval-proportion.ts';

/**
 * The exact binomial interval for a proportion with half the chance of the observed count taken off
 * each tail: shorter than `clopperPearson`, and on average at its level. 0 of n has the lower limit
 * 0 exactly and n of n the upper limit 1. No units: not estimable.
 * Source: Lancaster 1961 (citation from memory); textbook form.
 * @param x successes, 0 to n
 * @param n units
 */
export function proportionMidP(x: number, n: number, { level }: Level): Estimate {
  const limits = () => {
    const odds = oddsLimits(midPLowerOdds, { wins: x, losses: n - x, level });
    return { lower: odds.lower / (1 + odds.lower), upper: 1 / (1 + 1 / odds.upper) };
  };
  return proportionEstimate(x, n, { level, method: 'mid-p', limits });
}
