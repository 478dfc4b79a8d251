import { log1pMinus, stirlingError } from './stirling.ts';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/**
 * y·ln(y/mean) − (y − mean), 0 or more: the building block of every deviance here, with its digits
 * also close to the mean, where its two parts all but cancel. `y` 0 or more, `mean` above 0.
 */
export function entropyExcess(y: number, mean: number): number {
  if (y === 0) return mean;
  const excess = (mean - y) / y;
  if (Math.abs(excess) < 0.5) return Math.max(0, -y * log1pMinus(excess));
  return y * Math.log(y / mean) + (mean - y);
}

/**
 * ln P(Y = successes) of a binomial whose probability is exactly successes/trials: the highest
 * log-likelihood a row can reach. Counts need not be whole; 0 at 0 and at all trials.
 * Source: Loader 2000, Fast and Accurate Computation of Binomial Probabilities (from memory).
 */
export function saturatedBinomial(successes: number, trials: number): number {
  const failures = trials - successes;
  if (successes <= 0 || failures <= 0) return 0;
  const remainder = stirlingError(trials) - stirlingError(successes) - stirlingError(failures);
  return remainder - HALF_LOG_TWO_PI - 0.5 * Math.log(successes * (failures / trials));
}

/** ln P(Y = count) of a Poisson distribution with mean `count`; 0 at count 0. */
export function saturatedPoisson(count: number): number {
  return count <= 0 ? 0 : -stirlingError(count) - HALF_LOG_TWO_PI - 0.5 * Math.log(count);
}
