import { negativeBinomialLogPmf } from './count-distribution-negative-binomial.ts';
import { at, type Column } from './design-columns.ts';
import { digamma, trigamma } from './distributions.ts';

/** Counts with their means held fixed; `weight` is the prior weight of each row. */
export interface CountsAtMeans {
  readonly y: Column;
  readonly mean: Column;
  readonly weight: Column;
}

/** Up to this count the sums over 1/(θ + j) are added term by term, exact for any θ. */
const TERM_BY_TERM = 100;

/** Slope of the log-likelihood by θ, and minus its curvature (the observed information). */
export interface ThetaDerivatives {
  readonly score: number;
  readonly information: number;
}

/** One row's part of the slope and of the observed information about θ of the NB2 distribution. */
export function thetaRow(y: number, mean: number, theta: number): ThetaDerivatives {
  let ones = 0;
  let squares = 0;
  if (y <= TERM_BY_TERM)
    for (let j = 0; j < y; j++) {
      ones += 1 / (theta + j);
      squares += 1 / (theta + j) ** 2;
    }
  else {
    ones = digamma(theta + y) - digamma(theta);
    squares = trigamma(theta) - trigamma(theta + y);
  }
  const both = mean + theta;
  return {
    score: ones - Math.log1p(mean / theta) + (mean - y) / both,
    information: squares - mean / (theta * both) + (mean - y) / both ** 2,
  };
}

/** Sums of `thetaRow` over the rows. Source: Lawless 1987, Can J Statist 15:209 (from memory). */
export function thetaDerivatives(data: CountsAtMeans, theta: number): ThetaDerivatives {
  let score = 0;
  let information = 0;
  for (let row = 0; row < data.y.length; row++) {
    const part = thetaRow(at(data.y, row), at(data.mean, row), theta);
    score += at(data.weight, row) * part.score;
    information += at(data.weight, row) * part.information;
  }
  return { score, information };
}

/** Log-likelihood of θ (Infinity = Poisson) at the given means. */
export function thetaLogLik({ y, mean, weight }: CountsAtMeans, theta: number): number {
  let sum = 0;
  for (let row = 0; row < y.length; row++)
    sum +=
      at(weight, row) * negativeBinomialLogPmf(at(y, row), { mean: at(mean, row), size: theta });
  return sum;
}

/**
 * Slope of the log-likelihood by 1/θ at 1/θ = 0 (the Poisson fit): below 0 the counts vary less
 * than Poisson and the likelihood rises towards θ = infinity.
 */
export function scoreAtPoisson({ y, mean, weight }: CountsAtMeans): number {
  let sum = 0;
  for (let row = 0; row < y.length; row++)
    sum += at(weight, row) * ((at(y, row) - at(mean, row)) ** 2 - at(y, row));
  return sum / 2;
}

const GRID_FROM = -4;
const GRID_TO = 6;
const GRID_STEPS_PER_TEN = 3;

/**
 * The best θ on a grid from 0.0001 to a million: a start for the search, because the likelihood of
 * zero-heavy counts may have a second, lower peak where a local search would stay.
 */
export function thetaStart(data: CountsAtMeans): {
  readonly theta: number;
  readonly logLik: number;
} {
  let best = { theta: 1, logLik: Number.NEGATIVE_INFINITY };
  for (let step = GRID_FROM * GRID_STEPS_PER_TEN; step <= GRID_TO * GRID_STEPS_PER_TEN; step++) {
    const theta = 10 ** (step / GRID_STEPS_PER_TEN);
    const logLik = thetaLogLik(data, theta);
    if (logLik > best.logLik) best = { theta, logLik };
  }
  return best;
}

const MOST_STEPS = 100;
const LONGEST_STEP = 1;

/** Newton's method for θ on the log scale at fixed means, from a start near the maximum. */
export function thetaAtMeans(data: CountsAtMeans, start: number): number {
  let log = Math.log(start);
  for (let step = 0; step < MOST_STEPS; step++) {
    const theta = Math.exp(log);
    const { score, information } = thetaDerivatives(data, theta);
    const slope = theta * score;
    const curvature = slope - theta * theta * information;
    const newton = curvature < 0 ? -slope / curvature : Math.sign(slope) * LONGEST_STEP;
    const move = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, newton));
    log += move;
    if (Math.abs(move) < 1e-14 * Math.max(1, Math.abs(log)) || log > Math.log(1e9)) break;
  }
  return Math.exp(log);
}
