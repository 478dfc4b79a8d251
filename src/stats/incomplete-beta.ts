import { NEARLY_NORMAL, nearlyNormalTails } from './normal.ts';
import { log1pMinus, stirlingError } from './stirling.ts';
import { SETTLED, smallerTail, solveTail, type Tail, type Tails, tailsFrom } from './tails.ts';

/** A point of the unit interval with what is left above it, so that neither end loses digits. */
export interface UnitPoint {
  readonly x: number;
  /** 1 − x. */
  readonly y: number;
  readonly logX: number;
  readonly logY: number;
}

/** The point x, 0 to 1. */
export function pointAt(x: number): UnitPoint {
  return { x, y: 1 - x, logX: Math.log(x), logY: Math.log1p(-x) };
}

/** The point whose odds x/(1 − x) are given, 0 to Infinity. */
export function pointAtOdds(odds: number): UnitPoint {
  const inverse = 1 / odds;
  return {
    x: odds > 1 ? 1 / (1 + inverse) : odds / (1 + odds),
    y: odds > 1 ? inverse / (1 + inverse) : 1 / (1 + odds),
    logX: odds > 1 ? -Math.log1p(inverse) : Math.log(odds) - Math.log1p(odds),
    logY: odds > 1 ? Math.log(inverse) - Math.log1p(inverse) : -Math.log1p(odds),
  };
}

/** The point whose log odds ln(x/(1 − x)) are given; any number, so that no odds overflow. */
export function pointAtLogOdds(u: number): UnitPoint {
  const shrink = Math.log1p(Math.exp(-Math.abs(u)));
  const logX = u < 0 ? u - shrink : -shrink;
  const logY = u < 0 ? -shrink : -u - shrink;
  return { x: Math.exp(logX), y: Math.exp(logY), logX, logY };
}

/**
 * The regularised incomplete beta function I_x(a, b), both tails of the beta distribution, a and b
 * above 0.
 * Own code because the packages at hand keep eleven digits at best once a and b pass 100,000, and
 * give no logarithms of tails.
 * Source: NIST DLMF 8.17.22 (continued fraction), 8.17.4 (the other side of the mean).
 */
export function betaTails(point: UnitPoint, a: number, b: number): Tails {
  if (!(a > 0 && b > 0 && a + b < Number.POSITIVE_INFINITY) || Number.isNaN(point.x))
    throw new RangeError(`A beta distribution of ${a} and ${b} has no value at ${point.x}.`);
  if (Math.min(a, b) > NEARLY_NORMAL) {
    const root = -Math.sign(excessOf(point, a, b)) * Math.sqrt(2 * fallFromMean(point, a, b));
    return nearlyNormalTails(root, ((b - a) / 3) * Math.sqrt(1 / a / b / (a + b)));
  }
  const { x, y } = point;
  const kernel = logBetaKernel(point, a, b);
  const excess = excessOf(point, a, b);
  return x < (a + 1) / (a + b + 2)
    ? tailsFrom('lower', kernel + Math.log(betaFraction({ x, y, excess }, a, b)))
    : tailsFrom('upper', kernel + Math.log(betaFraction({ x: y, y: x, excess: -excess }, b, a)));
}

/**
 * ln of the odds x/(1 − x) at the quantile of the beta distribution whose tail is p; ±Infinity at
 * the ends. Odds serve because F and t are odds too, and because x near 1 has no digits for 1 − x.
 * Source: Newton's method on the log odds.
 */
export function betaQuantileLogOdds(
  p: number,
  { a, b, tail: wanted }: { a: number; b: number; tail: Tail },
): number {
  const { tail, p: small } = smallerTail(p, wanted);
  if (small === 0) return tail === 'lower' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const logTail = (u: number) => {
    const point = pointAtLogOdds(u);
    const tails = betaTails(point, a, b);
    const value = tail === 'lower' ? tails.logLower : tails.logUpper;
    const slope = Math.exp(logBetaKernel(point, a, b) - value);
    return { value, slope: tail === 'lower' ? slope : -slope };
  };
  return solveTail(logTail, Math.log(small), Math.log(a / b));
}

/**
 * ln(xᵃyᵇ/B(a, b)), the slope of I_x against the log odds of x. Written as distances from the mean
 * a/(a + b), which stay small where xᵃ, yᵇ and B are all huge or tiny.
 */
export function logBetaKernel(point: UnitPoint, a: number, b: number): number {
  const total = a + b;
  const shape = 0.5 * Math.log((a / total) * (b / (2 * Math.PI)));
  const errors = stirlingError(total) - stirlingError(a) - stirlingError(b);
  return shape - fallFromMean(point, a, b) + errors;
}

/** a·ln(a/(nx)) + b·ln(b/(ny)) with n = a + b: 0 at the mean and growing either way. */
function fallFromMean(point: UnitPoint, a: number, b: number): number {
  const excess = excessOf(point, a, b);
  const left = a * fallFrom(excess / a, Math.log(a / (a + b)) - point.logX);
  return left + b * fallFrom(-excess / b, Math.log(b / (a + b)) - point.logY);
}

/** a − (a + b)x, from the smaller of x and y, which carries the digits. */
function excessOf({ x, y }: UnitPoint, a: number, b: number): number {
  return x <= 0.5 ? a - (a + b) * x : (a + b) * y - b;
}

/** A point as seen from the end whose tail is wanted. */
interface Side {
  readonly x: number;
  readonly y: number;
  readonly excess: number;
}

/** −ln(1 − t) − t; `minusLog` is −ln(1 − t) worked out another way, for t far from 0. */
function fallFrom(t: number, minusLog: number): number {
  return Math.abs(t) < 0.5 ? -log1pMinus(-t) : minusLog - t;
}

/**
 * I_x(a, b)·B(a, b)/(xᵃyᵇ) by a continued fraction, evaluated forwards (Lentz's method). It is the
 * even part of the classical one; x near 1 enters through `excess` = a − (a + b)x alone.
 * Source: Didonato & Morris 1992, eq. 9 (citation from memory).
 */
function betaFraction({ x, y, excess }: Side, a: number, b: number): number {
  let fraction = (a * (excess + 1)) / (a + 1);
  let c = fraction;
  let d = 0;
  for (let n = 1; ; n++) {
    const odd = a + 2 * n - 1;
    const numerator = ((a + n - 1) / odd) * ((a + b + n - 1) / odd) * x * (n * (b - n) * x);
    const term = n + (n * (b - n) * x) / odd + ((a + n) * (excess + 1 + n * (1 + y))) / (odd + 2);
    d = 1 / (term + numerator * d);
    c = term + numerator / c;
    fraction *= c * d;
    if (!(Math.abs(c * d - 1) > SETTLED)) return 1 / fraction;
  }
}
