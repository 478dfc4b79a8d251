import {
  type Basis,
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';
import type { Level } from './interval-level.ts';

/** Limits of a proportion from successes x of n units (both may be fractions of a unit). */
export type ProportionLimits = (x: number, n: number, level: number) => Interval;

/** The reason given where a proportion has no denominator. */
export const NOTHING_COUNTED = 'Nothing was counted, so there is no share to speak of.';

/**
 * A proportion x/n with the limits of one method, as one estimate.
 * No units, or counts that cannot be (below 0, more successes than units, not a number), are not
 * estimable, with the counts named in the reason.
 */
export function proportionEstimate(
  x: number,
  n: number,
  { level, method, limits }: Level & { method: string; limits: ProportionLimits },
): Estimate {
  const basis: Basis = { level, method, n, exposure: null, notes: [] };
  const reason = whyNoProportion(x, n);
  if (reason !== null) return notEstimable(reason, { ...basis, n: Number.isFinite(n) ? n : 0 });
  return estimated({ ...basis, estimate: x / n, ...limits(x, n, level) });
}

/** Why x of n is no proportion, in a sentence; null when it is one. */
export function whyNoProportion(x: number, n: number): string | null {
  if (!Number.isFinite(x) || !Number.isFinite(n) || x < 0 || n < 0)
    return `${x} of ${n} are no counts.`;
  if (x > n) return `${x} of ${n} cannot be: the part is larger than the whole.`;
  return n === 0 ? NOTHING_COUNTED : null;
}

/** Puts the limits at 0 and 1 exactly where none, or all, of the units were successes. */
export function exactAtBounds(x: number, n: number, { lower, upper }: Interval): Interval {
  return { lower: x === 0 ? 0 : Math.max(0, lower), upper: x === n ? 1 : Math.min(1, upper) };
}
