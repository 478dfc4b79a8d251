import { logGamma, trigamma } from './distributions.ts';
import type { PriorFamily } from './empirical-bayes-doubt.ts';
import { digammaRise, logRisingExcess } from './empirical-bayes-rising.ts';
import type { SpreadProfile } from './empirical-bayes-spread.ts';
import { findRootOutward } from './root.ts';

/** Events over an exposure (hours, say) of one option; effective counts are fractions. */
export interface Events {
  readonly events: number;
  readonly exposure: number;
}

/** A gamma distribution of rates: `shape` events in `rate` of exposure on paper beforehand. */
export interface GammaPrior {
  readonly shape: number;
  readonly rate: number;
}

/** ln of the factorials, the part of a log-likelihood that no parameter moves. */
export const logFactorials = (options: readonly Events[]): number =>
  total(options, ({ events }) => logGamma(events + 1));

/** Log-likelihood of one common rate. */
export const poissonLogLikelihood = (options: readonly Events[], rate: number): number =>
  total(
    options,
    ({ events: y, exposure }) => (y > 0 ? y * Math.log(rate * exposure) : 0) - rate * exposure,
  ) - logFactorials(options);

/** Log-likelihood: each count negative binomial with size `shape`, mean shape·exposure/rate. */
export function gammaPoissonLogLikelihood(
  options: readonly Events[],
  { shape, rate }: GammaPrior,
): number {
  const kernel = total(options, ({ events: y, exposure }) => {
    const mean = (shape * exposure) / rate;
    const rising = logRisingExcess(shape, y) - (y + shape) * Math.log1p(mean / shape);
    return rising + (y > 0 ? y * Math.log(mean) : 0);
  });
  return kernel - logFactorials(options);
}

/** The prior of a given shape whose mean rate fits best; there is exactly one. */
export function bestGammaPriorAt(options: readonly Events[], shape: number): GammaPrior {
  const fall = (logMean: number): number =>
    total(options, ({ events: y, exposure }) => {
      const mean = Math.exp(logMean) * exposure;
      return (mean - y) / (1 + mean / shape);
    });
  const crude = total(options, ({ events }) => events) / total(options, ({ exposure }) => exposure);
  return { shape, rate: shape / Math.exp(findRootOutward(fall, Math.log(crude))) };
}

/** How well each ln(shape) fits, the mean rate at its best. */
export function shapeProfile(options: readonly Events[]): SpreadProfile {
  return {
    height: (log) => gammaPoissonLogLikelihood(options, bestGammaPriorAt(options, Math.exp(log))),
    slope: (log) => {
      const { shape, rate } = bestGammaPriorAt(options, Math.exp(log));
      return total(
        options,
        ({ events, exposure }) =>
          shape * (digammaRise(shape, events) - Math.log1p(exposure / rate)),
      );
    },
  };
}

/**
 * The priors these records leave possible, by 1/(1 + shape) (0 to 1) and the logarithm of the common
 * rate; beforehand every logarithm is equally possible (Jeffreys' rule leaves very high rates too
 * probable to average over when few options are known).
 */
export function gammaPriorFamily(options: readonly Events[]): PriorFamily<GammaPrior> {
  const prior = (spread: number, logMean: number): GammaPrior => {
    const shape = 1 / spread - 1;
    return { shape, rate: shape / Math.exp(logMean) };
  };
  return {
    prior,
    bestPlace: (spread) => {
      const { shape, rate } = bestGammaPriorAt(options, 1 / spread - 1);
      return Math.log(shape / rate);
    },
    logWeight: (spread, logMean) => gammaPoissonLogLikelihood(options, prior(spread, logMean)),
  };
}

/** Standard errors of ln shape and ln rate and their covariance, from the observed information. */
export function gammaPriorErrors(
  options: readonly Events[],
  { shape, rate }: GammaPrior,
): { readonly seLogShape: number; readonly seLogRate: number; readonly covLog: number } {
  const first = total(options, ({ events }) => {
    return shape ** 2 * (trigamma(shape) - trigamma(shape + events));
  });
  const shared = ({ exposure }: Events): number => exposure / (rate + exposure);
  const both = -shape * total(options, shared);
  const second = total(options, (option) => {
    return shape - (shape + option.events) * (1 - shared(option)) ** 2;
  });
  // The slope in ln shape is 0 at the fit, so its own term in the information drops out.
  const determinant = first * second - both ** 2;
  return {
    seLogShape: Math.sqrt(second / determinant),
    seLogRate: Math.sqrt(first / determinant),
    covLog: -both / determinant,
  };
}

const total = (options: readonly Events[], of: (option: Events) => number): number =>
  options.reduce((sum, option) => sum + of(option), 0);
