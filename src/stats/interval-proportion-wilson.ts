import type { Estimate, Interval } from '../base/estimate.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { exactAtBounds, proportionEstimate } from './interval-proportion.ts';

/**
 * Wilson's score interval for a proportion, all units independent.
 * 0 of n has the lower limit 0 exactly and n of n the upper limit 1; no units: not estimable.
 * Source: Wilson 1927.
 * @param x successes, 0 to n
 * @param n units
 */
export function wilson(x: number, n: number, { level }: Level): Estimate {
  const limits = () => wilsonLimits(x, n, normalCritical(level));
  return proportionEstimate(x, n, { level, method: 'wilson', limits });
}

/**
 * Wilson limits from x of n (fractions allowed, so that n may be an effective number) and the
 * critical value, z or t: the two proportions whose score statistic is ± that value.
 * Source: Wilson 1927; the lower limit from the product of the roots, so that a tiny x/n keeps its
 * digits.
 */
export function wilsonLimits(x: number, n: number, critical: number): Interval {
  const p = x / n;
  const k = critical ** 2 / n;
  const largerRoot = p + k / 2 + Math.sqrt(k * k * 0.25 + k * p * ((n - x) / n));
  const limits = { lower: (p * p) / largerRoot, upper: largerRoot / (1 + k) };
  return exactAtBounds(x, n, limits);
}

/**
 * Wilson's interval with continuity correction: a little wider, never short of its level by much.
 * 0 of n has the lower limit 0 exactly and n of n the upper limit 1; no units: not estimable.
 * Source: Newcombe 1998 (single proportions), method 4.
 */
export function wilsonContinuity(x: number, n: number, { level }: Level): Estimate {
  const limits = () => wilsonContinuityLimits(x, n, normalCritical(level));
  return proportionEstimate(x, n, { level, method: 'wilson-continuity', limits });
}

/**
 * Limits of Wilson's interval with continuity correction; `z` is the normal critical value. They
 * are Wilson's own limits half a success further out, which is Newcombe's formula in another form.
 */
export function wilsonContinuityLimits(x: number, n: number, z: number): Interval {
  return exactAtBounds(x, n, {
    lower: wilsonLimits(Math.max(0, x - 0.5), n, z).lower,
    upper: wilsonLimits(Math.min(n, x + 0.5), n, z).upper,
  });
}
