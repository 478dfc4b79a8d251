import type { Estimate, Interval } from '../base/estimate.ts';
import { betaQuantile, betaUpperQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import { proportionEstimate } from './interval-proportion.ts';

/**
 * Jeffreys' interval for a proportion, all units independent, stretched to hold x/n where it
 * does not: 0 of n has the lower limit 0 exactly and n of n the upper limit 1. No units: not
 * estimable.
 * Source: Brown, Cai & DasGupta 2001.
 * @param x successes, 0 to n
 * @param n units
 */
export function jeffreys(x: number, n: number, { level }: Level): Estimate {
  const limits = () => {
    const { lower, upper } = jeffreysLimits(x, n, level);
    return { lower: Math.min(lower, x / n), upper: Math.max(upper, x / n) };
  };
  return proportionEstimate(x, n, { level, method: 'jeffreys', limits });
}

/**
 * The equal-tailed limits alone: quantiles of the beta posterior under Jeffreys' prior. At 0 of n
 * the lower limit is above 0, and so does not hold x/n.
 * Source: Brown, Cai & DasGupta 2001.
 */
export function jeffreysLimits(x: number, n: number, level: number): Interval {
  const tail = tailArea(level);
  return {
    lower: betaQuantile(tail, x + 0.5, n - x + 0.5),
    upper: betaUpperQuantile(tail, x + 0.5, n - x + 0.5),
  };
}
