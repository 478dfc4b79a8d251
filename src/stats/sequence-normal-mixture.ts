import { normalTails } from './distributions.ts';
import { findRoot } from './root.ts';

/**
 * The normal-mixture boundary: a sum of independent terms that are no wilder than normal ones stays
 * below it at every look at once, with probability 1 − α, not only at a look fixed in advance.
 * `v` is the variance the sum would have by then (the sum of the terms' variance proxies, above 0).
 * Source: Howard, Ramdas, McAuliffe & Sekhon 2021, Ann. Stat. 49:1055, propositions 5 and 6.
 */
export interface NormalMixture {
  /** Where the boundary is tightest, see `normalMixtureScale`; above 0. */
  readonly rho: number;
  /** 1: the sum stays below; 2: it stays between ± the boundary. */
  readonly sided: 1 | 2;
}

/**
 * The scale ρ that makes the boundary tightest about the time the variance reaches `vOpt`.
 * Source: Howard et al. 2021, section 3.5 (their approximation).
 */
export function normalMixtureScale(
  vOpt: number,
  { alpha, sided }: { readonly alpha: number; readonly sided: 1 | 2 },
): number {
  const log = 2 * Math.log(1 / (sided === 2 ? alpha : 2 * alpha));
  return vOpt / (log + Math.log1p(log));
}

/** ln of the mixture martingale at sum `s`: the capital won by betting that its mean is not 0. */
export function logNormalMixture(s: number, v: number, { rho, sided }: NormalMixture): number {
  const width = v + rho;
  const twoSided = 0.5 * Math.log(rho / width) + (s * s) / (2 * width);
  if (sided === 2) return twoSided;
  return twoSided + Math.LN2 + normalTails(s / Math.sqrt(width)).logLower;
}

/** The boundary at variance `v`: the sum at which the martingale reaches 1/α. */
export function normalMixtureBound(v: number, mixture: NormalMixture & { alpha: number }): number {
  const { rho, alpha } = mixture;
  const twoSided = Math.sqrt((v + rho) * (Math.log1p(v / rho) - 2 * Math.log(alpha)));
  if (mixture.sided === 2) return twoSided;
  const short = (s: number): number => logNormalMixture(s, v, mixture) + Math.log(alpha);
  // At the two-sided boundary the one-sided capital, 2Φ times as much, has passed 1/α already.
  return findRoot(short, { lower: 0, upper: twoSided });
}
