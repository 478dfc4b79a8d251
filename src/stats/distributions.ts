/**
 * Distribution functions, quantiles and special functions: numbers in, numbers out.
 * `…Tails` gives P(X ≤ x), P(X > x) and their logarithms; `…Cdf` is the first alone.
 * `…Quantile(p)` is the x with P(X ≤ x) = p, `…UpperQuantile(p)` the x with P(X > x) = p, which
 * keeps its digits for tiny p. Ends of the support come back at p = 0 and 1.
 * A probability outside 0 to 1 or a parameter that cannot be throws a RangeError: it is a mistake
 * of the caller and no result.
 * Source of all: NIST Digital Library of Mathematical Functions, chapters 5, 7 and 8.
 */
import logBetaOf from '@stdlib/math-base-special-betaln';
import digammaOf from '@stdlib/math-base-special-digamma';
import logGammaOf from '@stdlib/math-base-special-gammaln';
import trigammaOf from '@stdlib/math-base-special-trigamma';
import {
  betaQuantileLogOdds,
  betaTails as betaTailsAt,
  pointAt,
  pointAtLogOdds,
  pointAtOdds,
} from './incomplete-beta.ts';
import { gammaQuantileOf, gammaTails } from './incomplete-gamma.ts';
import { normalQuantile, normalTails } from './normal.ts';
import { mirrored, smallerTail, type Tails, tailsFrom } from './tails.ts';

export { normalCdf, normalQuantile, normalTails, normalUpperQuantile } from './normal.ts';
export { gammaTails };

/** Gamma distribution of this shape and scale 1 at x ≥ 0: P(X ≤ x). */
export const gammaCdf = (x: number, shape: number): number => gammaTails(x, shape).lower;

/** Gamma quantile (scale 1); 0 where the true value is below the smallest double. */
export const gammaQuantile = (p: number, shape: number): number =>
  gammaQuantileOf(p, shape, 'lower');

/** Gamma upper quantile (scale 1). */
export const gammaUpperQuantile = (p: number, shape: number): number =>
  gammaQuantileOf(p, shape, 'upper');

/** Both tails of chi-square on `df` (above 0, need not be whole) at x ≥ 0, and their logarithms. */
export const chiSquareTails = (x: number, df: number): Tails => gammaTails(x / 2, df / 2);

/** Chi-square distribution at x: P(X ≤ x). */
export const chiSquareCdf = (x: number, df: number): number => chiSquareTails(x, df).lower;

/** Chi-square quantile. */
export const chiSquareQuantile = (p: number, df: number): number =>
  2 * gammaQuantileOf(p, df / 2, 'lower');

/** Chi-square upper quantile. */
export const chiSquareUpperQuantile = (p: number, df: number): number =>
  2 * gammaQuantileOf(p, df / 2, 'upper');

/** Both tails of the beta distribution at x (0 to 1), and their logarithms; a and b above 0. */
export const betaTails = (x: number, a: number, b: number): Tails => betaTailsAt(pointAt(x), a, b);

/** Beta distribution at x: P(X ≤ x). */
export const betaCdf = (x: number, a: number, b: number): number => betaTails(x, a, b).lower;

/** Beta quantile; its complement to 1 is `betaUpperQuantile(p, b, a)`, with its own digits. */
export const betaQuantile = (p: number, a: number, b: number): number =>
  fromLogOdds(betaQuantileLogOdds(p, { a, b, tail: 'lower' }));

/** Beta upper quantile. */
export const betaUpperQuantile = (p: number, a: number, b: number): number =>
  fromLogOdds(betaQuantileLogOdds(p, { a, b, tail: 'upper' }));

const fromLogOdds = (u: number): number =>
  u < 0 ? Math.exp(u) / (1 + Math.exp(u)) : 1 / (1 + Math.exp(-u));

/** Both tails of F on df1 and df2 (above 0, need not be whole) at x ≥ 0, and their logarithms. */
export const fTails = (x: number, df1: number, df2: number): Tails =>
  betaTailsAt(pointAtOdds((Math.max(0, x) * df1) / df2), df1 / 2, df2 / 2);

/** F distribution at x: P(X ≤ x). */
export const fCdf = (x: number, df1: number, df2: number): number => fTails(x, df1, df2).lower;

/** F quantile. */
export const fQuantile = (p: number, df1: number, df2: number): number =>
  (df2 / df1) * Math.exp(betaQuantileLogOdds(p, { a: df1 / 2, b: df2 / 2, tail: 'lower' }));

/** F upper quantile. */
export const fUpperQuantile = (p: number, df1: number, df2: number): number =>
  (df2 / df1) * Math.exp(betaQuantileLogOdds(p, { a: df1 / 2, b: df2 / 2, tail: 'upper' }));

/** Both tails of Student's t on `df` (above 0; Infinity is the normal) at x, and their logarithms. */
export function tTails(x: number, df: number): Tails {
  if (df === Number.POSITIVE_INFINITY) return normalTails(x);
  const odds = df / x / x;
  const far = Math.log(df) - 2 * Math.log(Math.abs(x));
  const point = odds > 1e-290 ? pointAtOdds(odds) : pointAtLogOdds(far);
  const beyond = betaTailsAt(point, df / 2, 0.5).logLower - Math.LN2;
  const tails = tailsFrom('lower', x === 0 ? -Math.LN2 : beyond);
  return x < 0 ? tails : mirrored(tails);
}

/** Student's t distribution at x: P(T ≤ x). */
export const tCdf = (x: number, df: number): number => tTails(x, df).lower;

/** Student's t quantile. */
export function tQuantile(p: number, df: number): number {
  if (df === Number.POSITIVE_INFINITY) return normalQuantile(p);
  const { tail, p: small } = smallerTail(p, 'lower');
  if (small === 0.5) return 0;
  // Both halves of the t distribution together are one tail of df/(df + t²), which is beta.
  const logOdds = betaQuantileLogOdds(2 * small, { a: df / 2, b: 0.5, tail: 'lower' });
  const size = Math.sqrt(df) * Math.exp(-logOdds / 2);
  return tail === 'lower' ? -size : size;
}

/** Student's t upper quantile. */
export const tUpperQuantile = (p: number, df: number): number => -tQuantile(p, df);

/** Error function, 2/√π ∫₀ˣ e^(−t²) dt, between −1 and 1. */
export const erf = (x: number): number => Math.sign(x) * gammaTails(x * x, 0.5).lower;

/** Complementary error function 1 − erf(x), between 0 and 2, with its own digits for large x. */
export const erfc = (x: number): number =>
  x > 0 ? gammaTails(x * x, 0.5).upper : 1 + gammaTails(x * x, 0.5).lower;

/** ln Γ(x), x above 0. */
export const logGamma = (x: number): number => logGammaOf(x);

/** ln B(a, b) = ln Γ(a) + ln Γ(b) − ln Γ(a + b), a and b above 0. */
export const logBeta = (a: number, b: number): number => logBetaOf(a, b);

/** Digamma ψ(x), the slope of ln Γ, x above 0. */
export const digamma = (x: number): number => digammaOf(x);

/** Trigamma ψ′(x), the slope of digamma, x above 0. */
export const trigamma = (x: number): number => trigammaOf(x);
