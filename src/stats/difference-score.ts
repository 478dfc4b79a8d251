import type { Estimate, Interval } from '../base/estimate.ts';
import { restrictedProportions } from './difference-restricted-likelihood.ts';
import { differenceEstimate, type TwoProportions } from './difference-two-proportions.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { findRoot } from './root.ts';

/**
 * Miettinen and Nurminen's score interval for a difference of two independent proportions: all
 * differences that a score test would not reject, with the variance scaled by N/(N − 1). Within −1
 * and 1. A group without units: not estimable.
 * Source: Miettinen & Nurminen 1985, Stat Med 4:213.
 */
export function miettinenNurminen(counts: TwoProportions, { level }: Level): Estimate {
  const units = counts.n1 + counts.n2;
  const z = normalCritical(level) * Math.sqrt(units / (units - 1));
  return differenceEstimate(counts, {
    level,
    method: 'miettinen-nurminen',
    limits: (_, difference) => scoreLimits(counts, difference, z),
  });
}

/**
 * Mee's score interval: the same without the factor N/(N − 1).
 * Source: Mee 1984, Biometrics 40:1175.
 */
export function mee(counts: TwoProportions, { level }: Level): Estimate {
  return differenceEstimate(counts, {
    level,
    method: 'mee',
    limits: (_, difference) => scoreLimits(counts, difference, normalCritical(level)),
  });
}

/** The two differences whose score statistic is ±z; exactly ±1 where the counts reach that far. */
function scoreLimits(counts: TwoProportions, observed: number, z: number): Interval {
  const excess = (difference: number) => {
    // At the observed difference the statistic is 0, also where its variance vanishes with it.
    if (difference === observed) return 1;
    const { p1, p2 } = restrictedProportions(counts, difference);
    const variance = (p1 * (1 - p1)) / counts.n1 + (p2 * (1 - p2)) / counts.n2;
    return z * Math.sqrt(Math.max(0, variance)) - Math.abs(observed - difference);
  };
  return {
    lower: observed <= -1 ? -1 : findRoot(excess, { lower: -1, upper: observed }),
    upper: observed >= 1 ? 1 : findRoot(excess, { lower: observed, upper: 1 }),
  };
}
