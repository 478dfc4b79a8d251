import {
  type Basis,
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';
import type { Level } from './interval-level.ts';
import { whyNoProportion } from './interval-proportion.ts';

/** Two independent groups: x1 events among n1 units of the first, x2 among n2 of the second. */
export interface TwoProportions {
  readonly x1: number;
  readonly n1: number;
  readonly x2: number;
  readonly n2: number;
}

/** One way to put limits on a difference of two proportions; `difference` is x₁/n₁ − x₂/n₂. */
export interface DifferenceMethod extends Level {
  readonly method: string;
  readonly limits: (counts: TwoProportions, difference: number) => Interval;
}

/**
 * The difference x₁/n₁ − x₂/n₂ (−1 to 1) with the limits of one method.
 * A group without units, or counts that cannot be, are not estimable, with the group named.
 */
export function differenceEstimate(
  counts: TwoProportions,
  { level, method, limits }: DifferenceMethod,
): Estimate {
  const basis = basisOfTwo(counts, { level, method });
  const reason = whyNoComparison(counts);
  if (reason !== null) return notEstimable(reason, basis);
  const estimate = counts.x1 / counts.n1 - counts.x2 / counts.n2;
  return estimated({ ...basis, estimate, ...limits(counts, estimate) });
}

/** What a comparison of two groups of units stands on. */
export function basisOfTwo(
  { n1, n2 }: TwoProportions,
  { level, method }: Level & { readonly method: string },
): Basis {
  return { level, method, n: Number.isFinite(n1 + n2) ? n1 + n2 : 0, exposure: null, notes: [] };
}

/** Why two groups cannot be compared, in a sentence; null when they can. */
export function whyNoComparison({ x1, n1, x2, n2 }: TwoProportions): string | null {
  const first = whyNoProportion(x1, n1);
  if (first !== null) return `In the first group: ${first}`;
  const second = whyNoProportion(x2, n2);
  return second === null ? null : `In the second group: ${second}`;
}
