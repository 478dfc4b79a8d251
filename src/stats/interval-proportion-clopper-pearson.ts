import type { Estimate, Interval } from '../base/estimate.ts';
import { betaQuantile, betaUpperQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import { exactAtBounds, proportionEstimate } from './interval-proportion.ts';

/**
 * The exact binomial interval for a proportion, all units independent: it covers at least its
 * level, and often more. 0 of n has the lower limit 0 exactly and n of n the upper limit 1.
 * No units: not estimable.
 * Source: Clopper & Pearson 1934.
 * @param x successes, 0 to n; need not be whole
 * @param n units; need not be whole
 */
export function clopperPearson(x: number, n: number, { level }: Level): Estimate {
  return proportionEstimate(x, n, {
    level,
    method: 'clopper-pearson',
    limits: clopperPearsonLimits,
  });
}

/**
 * Exact limits as beta quantiles, which is what carries them over to fractions of a unit
 * (effective numbers).
 * Source: Clopper & Pearson 1934 in the beta form; Korn & Graubard 1998 for effective numbers.
 */
export function clopperPearsonLimits(x: number, n: number, level: number): Interval {
  const tail = tailArea(level);
  return exactAtBounds(x, n, {
    lower: x === 0 ? 0 : betaQuantile(tail, x, n - x + 1),
    upper: x === n ? 1 : betaUpperQuantile(tail, x + 1, n - x),
  });
}
