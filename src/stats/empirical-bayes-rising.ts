import { digamma, logGamma } from './distributions.ts';
import { log1pMinus, stirlingError } from './stirling.ts';

/**
 * Rising factorials a(a + 1)…(a + x − 1), for any x from 0 on, not only whole numbers: effective
 * counts are fractions. When options barely differ, a goes to infinity, and differences of ln Γ or
 * of ψ lose all digits there; these forms do not.
 */

/** From here on the asymptotic series have all digits of a double. */
const SERIES_FROM = 10;

/** ln Γ(a + x) − ln Γ(a) − x ln a for a > 0; it goes to 0 as a grows. Source: NIST DLMF 5.11.1. */
export function logRisingExcess(a: number, x: number): number {
  if (a < SERIES_FROM) return logGamma(a + x) - logGamma(a) - x * Math.log(a);
  const ratio = x / a;
  const stirling = stirlingError(a + x) - stirlingError(a);
  return a * log1pMinus(ratio) + (x - 0.5) * Math.log1p(ratio) + stirling;
}

/** B₂ₖ/(2k), the terms of the series of ψ. Source: NIST DLMF 5.11.2. */
const DIGAMMA_TERMS = [1 / 12, -1 / 120, 1 / 252, -1 / 240, 1 / 132, -691 / 32760, 1 / 12];

/** ψ(a + x) − ψ(a) for a > 0, the slope of ln Γ(a + x) − ln Γ(a) in a; about x/a for large a. */
export function digammaRise(a: number, x: number): number {
  if (a < SERIES_FROM) return digamma(a + x) - digamma(a);
  const correction = (at: number): number => {
    const square = 1 / (at * at);
    return square * DIGAMMA_TERMS.reduceRight((sum, term) => sum * square + term, 0);
  };
  const half = (0.5 * x) / (a * (a + x));
  return Math.log1p(x / a) + half - (correction(a + x) - correction(a));
}
