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
  /**
   * Minus the second derivative by η of the log-likelihood of a share y of successes, above 0; null
   * where it does not depend on y and equals slope²/variance.
   */
  readonly curvature: ((y: number, eta: number) => number) | null;
}

const logistic = (eta: number): number => 1 / (1 + Math.exp(-eta));
const normalDensity = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

/** Density over tail of the normal distribution; beyond the smallest double its asymptote. */
function millsRatio(x: number): number {
  const tail = normalCdf(x);
  return tail > 0 ? normalDensity(x) / tail : -x;
}

/** y·r(r + η) + (1 − y)·s(s − η) with r, s the density over either tail. */
function probitCurvature(y: number, eta: number): number {
  const [r, s] = [millsRatio(eta), millsRatio(-eta)];
  return y * r * (r + eta) + (1 - y) * s * (s - eta);
}

/** With a = exp(η) and h = a/(exp(a) − 1), the slope of ln(mean): y·h(a + h − 1) + (1 − y)·a. */
function cloglogCurvature(y: number, eta: number): number {
  const a = Math.exp(eta);
  const h = a / Math.expm1(a);
  const bend = a < 1e-6 ? a / 2 : h * (a + h - 1);
  return y * bend + (1 - y) * a;
}

/** The links by name. Source: McCullagh & Nelder 1989, Generalized Linear Models, §4.3. */
export const LINKS: Readonly<Record<LinkName, Link>> = {
  logit: {
    name: 'logit',
    mean: logistic,
    rest: (eta) => logistic(-eta),
    slope: (eta) => logistic(eta) * logistic(-eta),
    eta: (mean) => Math.log(mean) - Math.log1p(-mean),
    curvature: null,
  },
  probit: {
    name: 'probit',
    mean: normalCdf,
    rest: (eta) => normalCdf(-eta),
    slope: normalDensity,
    eta: normalQuantile,
    curvature: probitCurvature,
  },
  cloglog: {
    name: 'cloglog',
    mean: (eta) => -Math.expm1(-Math.exp(eta)),
    rest: (eta) => Math.exp(-Math.exp(eta)),
    slope: (eta) => Math.exp(eta - Math.exp(eta)),
    eta: (mean) => Math.log(-Math.log1p(-mean)),
    curvature: cloglogCurvature,
  },
  log: {
    name: 'log',
    mean: Math.exp,
    rest: (eta) => -Math.expm1(eta),
    slope: Math.exp,
    eta: Math.log,
    curvature: null,
  },
  identity: {
    name: 'identity',
    mean: (eta) => eta,
    rest: (eta) => 1 - eta,
    slope: () => 1,
    eta: (mean) => mean,
    curvature: null,
  },
};
