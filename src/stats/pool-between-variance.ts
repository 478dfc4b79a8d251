import { type Study, weightedMean } from './pool-study.ts';
import { findRoot } from './root.ts';

/**
 * τ², the variance of the true effects between two or more studies, 0 or more, by three methods.
 * All give 0 where the studies differ no more than their own variances explain.
 */
export const betweenVariance = { derSimonianLaird, pauleMandel, reml };

/** The names of the methods. */
export type BetweenVarianceMethod = keyof typeof betweenVariance;

/**
 * By moments in one step.
 * Source: DerSimonian & Laird 1986, Controlled Clin. Trials 7:177.
 */
function derSimonianLaird(studies: readonly Study[]): number {
  const { weights, totalWeight, spread } = weightedMean(studies, 0);
  const squares = weights.reduce((sum, w) => sum + w * w, 0);
  return Math.max(0, (spread - (studies.length - 1)) / (totalWeight - squares / totalWeight));
}

/**
 * The τ² at which the generalised Q equals its degrees of freedom.
 * Source: Paule & Mandel 1982, J. Res. Nat. Bur. Stand. 87:377.
 */
function pauleMandel(studies: readonly Study[]): number {
  return varianceWhere((tau2) => weightedMean(studies, tau2).spread - (studies.length - 1));
}

/**
 * Restricted maximum likelihood: the default of the tool.
 * Source: Viechtbauer 2005, J. Educ. Behav. Stat. 30:261.
 */
function reml(studies: readonly Study[]): number {
  return varianceWhere((tau2) => {
    const { mean, weights, totalWeight } = weightedMean(studies, tau2);
    const pull = weights.map((w, i) => (w * ((studies[i] as Study).effect - mean)) ** 2 - w);
    const squares = weights.reduce((sum, w) => sum + w * w, 0);
    return pull.reduce((sum, term) => sum + term, squares / totalWeight);
  });
}

/**
 * Standard error of the REML τ² from its expected information, √(2/tr(PP)) with P the projection
 * that takes the mean out. It holds for many studies only; `heterogeneity` has the interval.
 * Source: Viechtbauer 2005, as above.
 */
export function remlStandardError(studies: readonly Study[], tau2: number): number {
  const { weights, totalWeight } = weightedMean(studies, tau2);
  const power = (k: number): number => weights.reduce((sum, w) => sum + w ** k, 0);
  const trace = power(2) - (2 * power(3)) / totalWeight + (power(2) / totalWeight) ** 2;
  return Math.sqrt(2 / trace);
}

/** Where a function of τ² that ends below 0 crosses it; 0 where it starts there. */
export function varianceWhere(f: (tau2: number) => number): number {
  if (f(0) <= 0) return 0;
  let upper = 1e-6;
  while (f(upper) > 0) upper *= 2;
  return findRoot(f, { lower: 0, upper });
}
