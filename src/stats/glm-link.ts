import { normalCdf, normalQuantile } from './distributions.ts';

export type LinkName = 'logit' | 'probit' | 'cloglog' | 'log' | 'identity';

/**
 * How a mean hangs on the linear predictor η. Everything is a function of η, so that a probability
 * of 1e-12 and one of 1 − 1e-12 keep all their digits.
 */
export interface Link {
  readonly name: LinkName;
  /** Mean at η. */
  mean(eta: number): number;
  /** 1 − mean at η, without loss; only asked of links for probabilities. */
  rest(eta: number): number;
  /** d mean / dη. */
  slope(eta: number): number;
  /** η at a mean strictly inside its range. */
  eta(mean: number): number;
}

const logistic = (eta: number): number => 1 / (1 + Math.exp(-eta));
const normalDensity = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

/** The links by name. Source: McCullagh & Nelder 1989, Generalized Linear Models, §4.3. */
export const LINKS: Readonly<Record<LinkName, Link>> = {
  logit: {
    name: 'logit',
    mean: logistic,
    rest: (eta) => logistic(-eta),
    slope: (eta) => logistic(eta) * logistic(-eta),
    eta: (mean) => Math.log(mean) - Math.log1p(-mean),
  },
  probit: {
    name: 'probit',
    mean: normalCdf,
    rest: (eta) => normalCdf(-eta),
    slope: normalDensity,
    eta: normalQuantile,
  },
  cloglog: {
    name: 'cloglog',
    mean: (eta) => -Math.expm1(-Math.exp(eta)),
    rest: (eta) => Math.exp(-Math.exp(eta)),
    slope: (eta) => Math.exp(eta - Math.exp(eta)),
    eta: (mean) => Math.log(-Math.log1p(-mean)),
  },
  log: {
    name: 'log',
    mean: Math.exp,
    rest: (eta) => -Math.expm1(eta),
    slope: Math.exp,
    eta: Math.log,
  },
  identity: {
    name: 'identity',
    mean: (eta) => eta,
    rest: (eta) => 1 - eta,
    slope: () => 1,
    eta: (mean) => mean,
  },
};
