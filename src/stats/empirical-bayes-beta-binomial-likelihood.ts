import { logGamma, trigamma } from './distributions.ts';
import type { PriorFamily } from './empirical-bayes-doubt.ts';
import { digammaRise, logRisingExcess } from './empirical-bayes-rising.ts';
import type { SpreadProfile } from './empirical-bayes-spread.ts';
import type { Trials } from './empirical-bayes-tarone.ts';
import { findRootOutward } from './root.ts';

/** A beta distribution of rates: α successes and β failures on paper before the first trial. */
export interface BetaPrior {
  readonly alpha: number;
  readonly beta: number;
}

/** ln of the binomial coefficients, the part of a log-likelihood that no parameter moves. */
export const logChoices = (options: readonly Trials[]): number =>
  total(
    options,
    ({ successes: x, trials: n }) => logGamma(n + 1) - logGamma(x + 1) - logGamma(n - x + 1),
  );

/** Log-likelihood of one common rate `p`, without binomial coefficients. */
export const binomialLogLikelihood = (options: readonly Trials[], p: number): number =>
  total(
    options,
    ({ successes: x, trials: n }) =>
      (x > 0 ? x * Math.log(p) : 0) + (n > x ? (n - x) * Math.log1p(-p) : 0),
  );

/**
 * Beta-binomial log-likelihood without binomial coefficients, Σ ln B(x + α, n − x + β) − ln B(α, β),
 * put together as the binomial one and an excess, so that it stays exact as α + β grows.
 */
export function betaBinomialLogLikelihood(
  options: readonly Trials[],
  { alpha, beta }: BetaPrior,
): number {
  const excess = total(
    options,
    ({ successes: x, trials: n }) =>
      logRisingExcess(alpha, x) + logRisingExcess(beta, n - x) - logRisingExcess(alpha + beta, n),
  );
  return binomialLogLikelihood(options, alpha / (alpha + beta)) + excess;
}

/** The prior of a given precision α + β whose mean fits best; there is exactly one. */
export function bestPriorAt(options: readonly Trials[], precision: number): BetaPrior {
  const priorAt = (logOdds: number): BetaPrior => ({
    alpha: precision / (1 + Math.exp(-logOdds)),
    beta: precision / (1 + Math.exp(logOdds)),
  });
  const fall = (logOdds: number): number => {
    const { alpha, beta } = priorAt(logOdds);
    return total(
      options,
      ({ successes: x, trials: n }) => digammaRise(beta, n - x) - digammaRise(alpha, x),
    );
  };
  const failures = total(options, ({ successes, trials }) => trials - successes);
  const start = Math.log(total(options, ({ successes }) => successes) / failures);
  return priorAt(findRootOutward(fall, start));
}

/** How well each ln(α + β) fits, the mean at its best. */
export function precisionProfile(options: readonly Trials[]): SpreadProfile {
  return {
    height: (log) => betaBinomialLogLikelihood(options, bestPriorAt(options, Math.exp(log))),
    slope: (log) => {
      const precision = Math.exp(log);
      const { alpha, beta } = bestPriorAt(options, precision);
      return total(
        options,
        ({ successes: x, trials: n }) =>
          alpha * digammaRise(alpha, x) +
          beta * digammaRise(beta, n - x) -
          precision * digammaRise(precision, n),
      );
    },
  };
}

/**
 * The priors these records leave possible, by the correlation of two trials of one option (0 to 1)
 * and the log odds of the common rate; that rate held possible beforehand by Jeffreys' rule.
 */
export function betaPriorFamily(options: readonly Trials[]): PriorFamily<BetaPrior> {
  const prior = (spread: number, logOdds: number): BetaPrior => {
    const precision = 1 / spread - 1;
    return {
      alpha: precision / (1 + Math.exp(-logOdds)),
      beta: precision / (1 + Math.exp(logOdds)),
    };
  };
  return {
    prior,
    bestPlace: (spread) => {
      const { alpha, beta } = bestPriorAt(options, 1 / spread - 1);
      return Math.log(alpha / beta);
    },
    logWeight: (spread, logOdds) => {
      const jeffreys = -0.5 * (Math.log1p(Math.exp(-logOdds)) + Math.log1p(Math.exp(logOdds)));
      return betaBinomialLogLikelihood(options, prior(spread, logOdds)) + jeffreys;
    },
  };
}

/** Standard errors of ln α and ln β and their covariance, from the observed information. */
export function betaPriorErrors(
  options: readonly Trials[],
  { alpha, beta }: BetaPrior,
): { readonly seLogAlpha: number; readonly seLogBeta: number; readonly covLog: number } {
  const bend = (a: number, of: (option: Trials) => number): number =>
    total(options, (option) => trigamma(a) - trigamma(of(option) + a));
  const shared = bend(alpha + beta, ({ trials }) => trials);
  const both = -alpha * beta * shared;
  const first = alpha ** 2 * (bend(alpha, ({ successes }) => successes) - shared);
  const second = beta ** 2 * (bend(beta, ({ successes, trials }) => trials - successes) - shared);
  const determinant = first * second - both ** 2;
  return {
    seLogAlpha: Math.sqrt(second / determinant),
    seLogBeta: Math.sqrt(first / determinant),
    covLog: -both / determinant,
  };
}

const total = (options: readonly Trials[], of: (option: Trials) => number): number =>
  options.reduce((sum, option) => sum + of(option), 0);
