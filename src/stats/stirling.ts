import logGamma from '@stdlib/math-base-special-gammaln';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/** B₂ₖ/(2k(2k − 1)): the terms of Stirling's series. Source: NIST DLMF 5.11.1. */
const STIRLING_TERMS = [
  1 / 12,
  -1 / 360,
  1 / 1260,
  -1 / 1680,
  1 / 1188,
  -691 / 360360,
  1 / 156,
  -3617 / 122400,
];

/** From here on the series has all digits of a double. */
const SERIES_FROM = 10;

/**
 * What Stirling's formula leaves out of ln Γ(a): ln Γ(a) − [(a − ½) ln a − a + ½ ln 2π], for a > 0.
 * With it, densities of large parameters need no difference of huge logarithms.
 * Source: NIST DLMF 5.11.1; its use after Loader 2000 (citation from memory).
 */
export function stirlingError(a: number): number {
  if (a < SERIES_FROM) return logGamma(a) - ((a - 0.5) * Math.log(a) - a + HALF_LOG_TWO_PI);
  const square = 1 / (a * a);
  return STIRLING_TERMS.reduceRight((sum, term) => sum * square + term, 0) / a;
}

/**
 * ln(1 + t) − t for t > −1, keeping its digits near t = 0, where the two nearly cancel.
 * Source: ln(1 + t) = 2 artanh(t/(2 + t)) and its power series.
 */
export function log1pMinus(t: number): number {
  if (Math.abs(t) > 0.5) return Math.log1p(t) - t;
  const r = t / (2 + t);
  const square = r * r;
  let sum = 0;
  let power = square;
  for (let odd = 3; power > 1e-18; odd += 2) {
    sum += power / odd;
    power *= square;
  }
  return 2 * r * sum - t * r;
}
