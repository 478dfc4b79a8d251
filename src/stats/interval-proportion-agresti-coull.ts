import type { Estimate, Interval } from '../base/estimate.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { proportionEstimate } from './interval-proportion.ts';

/**
 * The Agresti–Coull interval for a proportion, all units independent: the plain normal interval
 * after z²/2 successes and z²/2 failures are added, cut off at 0 and 1. No units: not estimable.
 * Source: Agresti & Coull 1998.
 * @param x successes, 0 to n
 * @param n units
 */
export function agrestiCoull(x: number, n: number, { level }: Level): Estimate {
  const limits = () => {
    const { lower, upper } = agrestiCoullLimits(x, n, level);
    return { lower: Math.max(0, lower), upper: Math.min(1, upper) };
  };
  return proportionEstimate(x, n, { level, method: 'agresti-coull', limits });
}

/** The limits before they are cut off at 0 and 1, and the middle between them. */
export function agrestiCoullLimits(
  x: number,
  n: number,
  level: number,
): Interval & { readonly center: number } {
  const z = normalCritical(level);
  const enlarged = n + z * z;
  const center = (x + (z * z) / 2) / enlarged;
  const half = z * Math.sqrt((center * (1 - center)) / enlarged);
  return { center, lower: center - half, upper: center + half };
}
