import { betaTails } from './distributions.ts';
import { logBetaKernel, pointAt } from './incomplete-beta.ts';

/** Independent trials with one chance of success: `n` a whole number, `p` from 0 to 1. */
export interface Trials {
  readonly n: number;
  readonly p: number;
}

/** ln P(X = k) for a whole k from 0 to n; −Infinity where it cannot happen. */
export function logBinomialProbability(k: number, { n, p }: Trials): number {
  if (k === 0) return n === 0 ? 0 : n * Math.log1p(-p);
  if (k === n) return n * Math.log(p);
  if (p === 0 || p === 1) return Number.NEGATIVE_INFINITY;
  return logBetaKernel(pointAt(p), k, n - k) + Math.log(n / k / (n - k));
}

/**
 * P(X ≤ k) for a whole k; 0 below 0 and 1 from n on.
 * Source: NIST DLMF 8.17.5 (binomial sums as incomplete beta functions).
 */
export function binomialAtMost(k: number, { n, p }: Trials): number {
  if (k < 0) return 0;
  return k >= n ? 1 : betaTails(p, k + 1, n - k).upper;
}

/** P(X ≥ k) for a whole k; 1 up to 0 and 0 above n. */
export function binomialAtLeast(k: number, { n, p }: Trials): number {
  if (k <= 0) return 1;
  return k > n ? 0 : betaTails(p, k, n - k + 1).lower;
}
