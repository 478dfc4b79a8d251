import {
  digamma,
  gammaQuantile,
  gammaTails,
  gammaUpperQuantile,
  logGamma,
  trigamma,
} from './distributions.ts';
import {
  betaQuantileLogOdds,
  betaTails,
  logBetaKernel,
  pointAtLogOdds,
  pointAtOdds,
} from './incomplete-beta.ts';

/**
 * What is believed of one rate, on a line from −∞ to ∞ on which its density is smooth: log odds of
 * a proportion, logarithm of a rate.
 */
export interface RateLaw {
  readonly density: (s: number) => number;
  /** P(rate ≤ s) and P(rate > s). */
  readonly tails: (s: number) => { readonly lower: number; readonly upper: number };
  /** P(rate ≤ the rate at s, raised by the margin). */
  readonly lowerRaised: (s: number) => number;
  /** Where the raised rate reaches 1 and `lowerRaised` bends; null where nothing bounds a rate. */
  readonly bend: number | null;
  /** Where to look: outside `from` to `to` nothing worth 10⁻¹² is left. */
  readonly from: number;
  readonly centre: number;
  readonly spread: number;
  readonly to: number;
}

/** Probability outside the stretch looked at, at each end. */
const LEFT_OUT = 1e-13;

/** A proportion with a beta distribution; the margin is a difference, 0 to 1. */
export function betaLaw(
  { a, b }: { readonly a: number; readonly b: number },
  difference: number,
): RateLaw {
  return {
    density: (s) => Math.exp(logBetaKernel(pointAtLogOdds(s), a, b)),
    tails: (s) => betaTails(pointAtLogOdds(s), a, b),
    lowerRaised: (s) => {
      const { x, y } = pointAtLogOdds(s);
      if (y <= difference) return 1;
      return betaTails(pointAtOdds((x + difference) / (y - difference)), a, b).lower;
    },
    bend: difference > 0 && difference < 1 ? Math.log1p(-difference) - Math.log(difference) : null,
    from: betaQuantileLogOdds(LEFT_OUT, { a, b, tail: 'lower' }),
    centre: digamma(a) - digamma(b),
    spread: Math.sqrt(trigamma(a) + trigamma(b)),
    to: betaQuantileLogOdds(LEFT_OUT, { a, b, tail: 'upper' }),
  };
}

/** Below this, e^s is so small that P(rate ≤ s) is its first term, x^shape/Γ(shape + 1). */
const FIRST_TERM_BELOW = -50;

/** A rate with a gamma distribution; the margin is a share of it, 0.1 for 10 %. */
export function gammaLaw(
  { shape, rate }: { readonly shape: number; readonly rate: number },
  share: number,
): RateLaw {
  const logScale = -Math.log(rate);
  const constant = logGamma(shape);
  const tails = (s: number) => {
    const t = s - logScale;
    if (t > FIRST_TERM_BELOW) return gammaTails(Math.exp(t), shape);
    const lower = Math.exp(shape * t - constant) / shape;
    return { lower, upper: 1 - lower };
  };
  const lowest = gammaQuantile(LEFT_OUT, shape);
  const firstTerm = (Math.log(LEFT_OUT * shape) + constant) / shape;
  return {
    density: (s) => Math.exp(shape * (s - logScale) - Math.exp(s - logScale) - constant),
    tails,
    lowerRaised: (s) => tails(s + Math.log1p(share)).lower,
    bend: null,
    from: logScale + (lowest > 1e-20 ? Math.log(lowest) : firstTerm),
    centre: logScale + digamma(shape),
    spread: Math.sqrt(trigamma(shape)),
    to: logScale + Math.log(gammaUpperQuantile(LEFT_OUT, shape)),
  };
}
