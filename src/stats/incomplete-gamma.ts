import { NEARLY_NORMAL, nearlyNormalTails } from './normal.ts';
import { log1pMinus, stirlingError } from './stirling.ts';
import { SETTLED, smallerTail, solveTail, type Tail, type Tails, tailsFrom } from './tails.ts';

/**
 * The regularised incomplete gamma functions P(a, x) and Q(a, x), both tails of the gamma
 * distribution of shape a > 0 and scale 1 at x.
 * Own code because the packages at hand lose all but two digits at shapes above about 1000, which a
 * season's count of events reaches.
 * Source: NIST DLMF 8.11.4 (series, below the mean), 8.9.2 (continued fraction, above it).
 */
export function gammaTails(x: number, a: number): Tails {
  if (!(a > 0 && a < Number.POSITIVE_INFINITY) || Number.isNaN(x))
    throw new RangeError(`A gamma distribution of shape ${a} has no value at ${x}.`);
  if (x <= 0) return tailsFrom('lower', Number.NEGATIVE_INFINITY);
  if (x === Number.POSITIVE_INFINITY) return tailsFrom('upper', Number.NEGATIVE_INFINITY);
  if (a > NEARLY_NORMAL) {
    const root = Math.sign(x - a) * Math.sqrt(2 * a * fallFromMean(x, a));
    return nearlyNormalTails(root, (1 / 3 - root / Math.sqrt(a) / 12) / Math.sqrt(a));
  }
  const kernel = logGammaKernel(x, a);
  return x < a + 1
    ? tailsFrom('lower', kernel + Math.log(lowerSeries(x, a)))
    : tailsFrom('upper', kernel + Math.log(upperFraction(x, a)));
}

/**
 * Quantile of the gamma distribution of shape a > 0 and scale 1: the x whose tail is p.
 * 0 and Infinity at the ends; 0 where the true value is below the smallest double.
 * Source: Newton's method on ln x; starts that bound the root after Laurent & Massart 2000.
 */
export function gammaQuantileOf(p: number, a: number, wanted: Tail): number {
  const { tail, p: small } = smallerTail(p, wanted);
  if (small === 0) return tail === 'lower' ? 0 : Number.POSITIVE_INFINITY;
  const depth = -Math.log(small);
  const logTail = (u: number) => {
    const x = Math.exp(u);
    const tails = gammaTails(x, a);
    const value = tail === 'lower' ? tails.logLower : tails.logUpper;
    const slope = Math.exp(logGammaKernel(x, a) - value);
    return { value, slope: tail === 'lower' ? slope : -slope };
  };
  if (tail === 'upper') {
    const above = a + Math.sqrt(2 * a * depth) + depth;
    return Math.exp(solveTail(logTail, -depth, Math.log(above)));
  }
  // Below the mean: P(a, x) ≤ xᵃ/Γ(a + 1), and the root is never further out than this bound.
  const power = (logGammaPlusOne(a) - depth) / a;
  if (power < LOG_TINY) return Math.exp(power);
  const below = Math.max(power, Math.log(Math.max(0, a - Math.sqrt(2 * a * depth))));
  return Math.exp(solveTail(logTail, -depth, below));
}

/** ln of the smallest x at which xᵃ/Γ(a + 1) and P(a, x) still differ in a double. */
const LOG_TINY = -600;

/** ln(xᵃe⁻ˣ/Γ(a)), the slope of P against ln x. */
function logGammaKernel(x: number, a: number): number {
  return 0.5 * Math.log(a / (2 * Math.PI)) - a * fallFromMean(x, a) - stirlingError(a);
}

/** x/a − 1 − ln(x/a), 0 at the mean and growing either way. */
function fallFromMean(x: number, a: number): number {
  const excess = (x - a) / a;
  return Math.abs(excess) < 0.5 ? -log1pMinus(excess) : excess - Math.log(x / a);
}

function logGammaPlusOne(a: number): number {
  const stirling = (a - 0.5) * Math.log(a) - a + 0.5 * Math.log(2 * Math.PI);
  return stirling + stirlingError(a) + Math.log(a);
}

/** Σ xⁿ/(a(a + 1)…(a + n)). */
function lowerSeries(x: number, a: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** Q(a, x)·Γ(a)/(xᵃe⁻ˣ) by its continued fraction, evaluated forwards (Lentz's method). */
function upperFraction(x: number, a: number): number {
  let b = x + 1 - a;
  let c = Number.POSITIVE_INFINITY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; ; n++) {
    const numerator = n * (a - n);
    b += 2;
    d = 1 / (b + numerator * d);
    c = b + numerator / c;
    const factor = c * d;
    fraction *= factor;
    if (!(Math.abs(factor - 1) > SETTLED)) return fraction;
  }
}
