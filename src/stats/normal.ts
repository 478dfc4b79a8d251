import normalCdfOf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile';
import { mirrored, smallerTail, solveTail, type Tails, tailsFrom } from './tails.ts';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/** Standard normal distribution at x: P(Z ≤ x). */
export const normalCdf = (x: number): number => normalCdfOf(x, 0, 1);

/** ln of the standard normal density at x. */
export const logNormalDensity = (x: number): number => -0.5 * x * x - HALF_LOG_TWO_PI;

/** Both tails of the standard normal distribution at x, and their logarithms. */
export function normalTails(x: number): Tails {
  if (x > 0) return mirrored(normalTails(-x));
  // Beyond −30 the tail nears the smallest double, while its logarithm is still a plain number.
  const logLower = x < -30 ? logFarTail(-x) : Math.log(normalCdf(x));
  return { ...tailsFrom('lower', logLower), lower: normalCdf(x) };
}

/** ln P(Z > x) for x far out. Source: NIST DLMF 7.12.1. */
function logFarTail(x: number): number {
  if (x === Number.POSITIVE_INFINITY) return Number.NEGATIVE_INFINITY;
  let sum = 0;
  let term = 1;
  for (let k = 1; k <= 7; k++) {
    term *= -(2 * k - 1) / (x * x);
    sum += term;
  }
  return logNormalDensity(x) - Math.log(x) + Math.log1p(sum);
}

/** Standard normal quantile: the z with P(Z ≤ z) = p. */
export function normalQuantile(p: number): number {
  const { tail, p: small } = smallerTail(p, 'lower');
  const sign = tail === 'lower' ? 1 : -1;
  if (small === 0) return -sign * Number.POSITIVE_INFINITY;
  if (small === 0.5) return 0;
  // The package inverts the error function at 1 − 2p, where a tiny p has drowned.
  if (small > 1e-3) return sign * normalQuantileOf(small, 0, 1);
  const logTail = (u: number) => {
    const value = normalTails(u).logLower;
    return { value, slope: Math.exp(logNormalDensity(u) - value) };
  };
  const bound = -Math.sqrt(-2 * Math.log(2 * small));
  return sign * solveTail(logTail, Math.log(small), bound);
}

/** Standard normal upper quantile: the z with P(Z > z) = p. */
export const normalUpperQuantile = (p: number): number => -normalQuantile(p);

/** From this gamma shape, and from this for both beta parameters, `nearlyNormalTails` serves. */
export const NEARLY_NORMAL = 1e9;

/**
 * Tails of a distribution of very large parameters from its signed root z (± √(twice the fall of
 * the log density from its peak)): P(X ≤ x) = Φ(z) + skew·φ(z). The error is of order 1/parameter.
 * Source: NIST DLMF 8.12.3 (gamma) and 8.18.9 (beta), first terms.
 */
export function nearlyNormalTails(z: number, skew: number): Tails {
  if (z > 0) return mirrored(nearlyNormalTails(-z, -skew));
  const logLower = normalTails(z).logLower;
  return tailsFrom('lower', logLower + Math.log1p(skew * Math.exp(logNormalDensity(z) - logLower)));
}
