import type { Estimate, Interval } from '../base/estimate.ts';
import { differenceEstimate, type TwoProportions } from './difference-two-proportions.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { wilsonContinuityLimits, wilsonLimits } from './interval-proportion-wilson.ts';
import { squareAndAdd } from './mover-difference.ts';

/**
 * Newcombe's hybrid score interval for a difference of two independent proportions: the Wilson
 * limits of each, squared and added. Always within −1 and 1. A group without units: not estimable.
 * Source: Newcombe 1998, Stat Med 17:873, method 10.
 */
export function newcombe(counts: TwoProportions, { level }: Level): Estimate {
  return hybrid(counts, { level, method: 'newcombe', limitsOfOne: wilsonLimits });
}

/**
 * The same from Wilson limits with continuity correction, a little wider.
 * Source: Newcombe 1998, Stat Med 17:873, method 11.
 */
export function newcombeContinuity(counts: TwoProportions, { level }: Level): Estimate {
  const method = 'newcombe-continuity';
  return hybrid(counts, { level, method, limitsOfOne: wilsonContinuityLimits });
}

interface Hybrid extends Level {
  readonly method: string;
  readonly limitsOfOne: (x: number, n: number, z: number) => Interval;
}

function hybrid(counts: TwoProportions, { level, method, limitsOfOne }: Hybrid): Estimate {
  const withLimits = (x: number, n: number) => ({
    estimate: x / n,
    ...limitsOfOne(x, n, normalCritical(level)),
  });
  return differenceEstimate(counts, {
    level,
    method,
    limits: ({ x1, n1, x2, n2 }) => {
      const { lower, upper } = squareAndAdd(withLimits(x1, n1), withLimits(x2, n2));
      return { lower: Math.max(-1, lower), upper: Math.min(1, upper) };
    },
  });
}
