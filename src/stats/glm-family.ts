import { negativeBinomialLogPmf } from './count-distribution-negative-binomial.ts';
import { entropyExcess, saturatedBinomial, saturatedPoisson } from './glm-likelihood.ts';
import { LINKS, type Link } from './glm-link.ts';

export type FamilyName =
  | 'binomial'
  | 'quasibinomial'
  | 'poisson'
  | 'quasipoisson'
  | 'negative-binomial'
  | 'gaussian';

/**
 * The distribution of a response around its mean. `y` is a share of the trials for the binomial
 * families and the count or number itself for the others; `weight` is the row's number of trials
 * times its prior weight, so that Var(y) = dispersion · variance(η) / weight.
 */
export interface Family {
  readonly name: FamilyName;
  readonly link: Link;
  /** Whether the dispersion is 1 by assumption or estimated from the residuals. */
  readonly dispersion: 'one' | 'estimated';
  /** θ of a count whose variance is mean + mean²/θ (Infinity: Poisson); null elsewhere. */
  readonly size: number | null;
  variance(eta: number): number;
  /**
   * Observed information about η per unit weight, where it differs from the expected one and is
   * always above 0: steps by it reach their aim in a few rounds where expected ones creep.
   */
  readonly curvature: ((y: number, eta: number) => number) | null;
  /** Twice the log-likelihood lost against a perfect fit, per unit weight; 0 or more. */
  unitDeviance(y: number, eta: number): number;
  /** Log-likelihood of one row before prior weights; null where a family has no likelihood. */
  readonly logLik: ((y: number, eta: number, trials: number) => number) | null;
  /** −1 or 1 where the likelihood of this row rises for ever as η falls or grows, else 0. */
  edge(y: number): -1 | 0 | 1;
}

/** Whether the response is a share of trials. */
export const isBinomial = ({ name }: Family): boolean =>
  name === 'binomial' || name === 'quasibinomial';

/** Successes out of trials, with a link for probabilities. Source: McCullagh & Nelder 1989, ch. 4. */
export function binomialFamily(link: Link, quasi = false): Family {
  const unitDeviance = (y: number, eta: number): number =>
    2 * (entropyExcess(y, link.mean(eta)) + entropyExcess(1 - y, link.rest(eta)));
  const logLik = (y: number, eta: number, trials: number): number =>
    saturatedBinomial(trials * y, trials) - 0.5 * trials * unitDeviance(y, eta);
  return {
    name: quasi ? 'quasibinomial' : 'binomial',
    link,
    dispersion: quasi ? 'estimated' : 'one',
    size: null,
    variance: (eta) => link.mean(eta) * link.rest(eta),
    curvature: link.curvature,
    unitDeviance,
    logLik: quasi ? null : logLik,
    edge: (y) => (y <= 0 ? -1 : y >= 1 ? 1 : 0),
  };
}

/** Counts with variance = mean (times a dispersion when `quasi`), log link. */
export function poissonFamily(quasi = false): Family {
  const unitDeviance = (y: number, eta: number): number => 2 * entropyExcess(y, Math.exp(eta));
  return {
    name: quasi ? 'quasipoisson' : 'poisson',
    link: LINKS.log,
    dispersion: quasi ? 'estimated' : 'one',
    size: Number.POSITIVE_INFINITY,
    variance: Math.exp,
    curvature: null,
    unitDeviance,
    logLik: quasi ? null : (y, eta) => saturatedPoisson(y) - 0.5 * unitDeviance(y, eta),
    edge: (y) => (y === 0 ? -1 : 0),
  };
}

/**
 * Counts with variance mean + mean²/θ (NB2), log link, θ known.
 * Source: McCullagh & Nelder 1989 §6.2.3; Hilbe 2011, Negative Binomial Regression (from memory).
 */
export function negativeBinomialFamily(theta: number): Family {
  const excess = (eta: number): number => Math.exp(eta) / theta;
  return {
    name: 'negative-binomial',
    link: LINKS.log,
    dispersion: 'one',
    size: theta,
    variance: (eta) => Math.exp(eta) * (1 + excess(eta)),
    curvature: (y, eta) => (Math.exp(eta) * (1 + y / theta)) / (1 + excess(eta)) ** 2,
    unitDeviance: (y, eta) =>
      2 * (entropyExcess(y, Math.exp(eta)) - entropyExcess(y + theta, Math.exp(eta) + theta)),
    logLik: (y, eta) => negativeBinomialLogPmf(y, { mean: Math.exp(eta), size: theta }),
    edge: (y) => (y === 0 ? -1 : 0),
  };
}

/** Numbers with constant variance, identity link: ordinary least squares. */
export function gaussianFamily(): Family {
  return {
    name: 'gaussian',
    link: LINKS.identity,
    dispersion: 'estimated',
    size: null,
    variance: () => 1,
    curvature: null,
    unitDeviance: (y, eta) => (y - eta) ** 2,
    logLik: null,
    edge: () => 0,
  };
}
