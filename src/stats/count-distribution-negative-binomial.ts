import { betaTails, logBetaKernel, pointAtOdds } from './incomplete-beta.ts';
import { gammaTails } from './incomplete-gamma.ts';
import { log1pMinus, stirlingError } from './stirling.ts';
import { type Tails, tailsFrom } from './tails.ts';

/**
 * The negative binomial law of counts (NB2), with the Poisson law as its limit.
 * `mean` 0 or more; `size` above 0, Infinity for Poisson; variance = mean + mean²/size.
 */
export interface NegativeBinomial {
  readonly mean: number;
  readonly size: number;
}

/**
 * ln P(count = k) for a whole number k, 0 or more; −Infinity where that cannot happen. Keeps its
 * digits for counts of 10⁹ and for any size, where differences of ln Γ have lost them.
 * Source: Loader 2000, Fast and Accurate Computation of Binomial Probabilities (from memory).
 */
export function negativeBinomialLogPmf(k: number, { mean, size }: NegativeBinomial): number {
  if (mean === 0) return k === 0 ? 0 : Number.NEGATIVE_INFINITY;
  if (size === Number.POSITIVE_INFINITY) return poissonLogPmf(k, mean);
  if (k === 0) return -size * Math.log1p(mean / size);
  return logBetaKernel(pointAtOdds(mean / size), k, size) - Math.log(k);
}

/**
 * P(count ≤ k) as `lower` and P(count > k) as `upper`, with their logarithms, for a whole number k,
 * 0 or more.
 * Source: NIST DLMF 8.17.5 and 8.4.10 (sums of the probabilities as incomplete beta and gamma).
 */
export function negativeBinomialTails(k: number, { mean, size }: NegativeBinomial): Tails {
  if (mean === 0) return tailsFrom('upper', Number.NEGATIVE_INFINITY);
  const beyond =
    size === Number.POSITIVE_INFINITY
      ? gammaTails(mean, k + 1)
      : betaTails(pointAtOdds(mean / size), k + 1, size);
  return {
    lower: beyond.upper,
    upper: beyond.lower,
    logLower: beyond.logUpper,
    logUpper: beyond.logLower,
  };
}

function poissonLogPmf(k: number, mean: number): number {
  if (k === 0) return -mean;
  const excess = (mean - k) / k;
  const fall = Math.abs(excess) < 0.5 ? -log1pMinus(excess) : Math.log(k / mean) + (mean - k) / k;
  return -k * fall - stirlingError(k) - Math.log(2 * Math.PI * k) / 2;
}
