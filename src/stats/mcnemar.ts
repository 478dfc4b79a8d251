import { type Basis, type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import type { TestOutcome } from '../base/test-outcome.ts';
import type { Continuity } from './difference-chi-square.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import { type Level, normalCritical } from './interval-level.ts';

/** Pairs by the outcome of their first and second member. */
export interface MatchedPairs {
  readonly bothYes: number;
  readonly onlyFirst: number;
  readonly onlySecond: number;
  readonly neither: number;
}

/**
 * The difference of two paired proportions, P(first) − P(second), −1 to 1, with the plain normal
 * interval; the limits may pass ±1. Not estimable without pairs, or when all pairs go one way: both
 * alike throughout, or each pair apart in the same direction.
 * Source: textbook form, e.g. Agresti, Categorical Data Analysis, ch. on matched pairs.
 */
export function mcnemarDifference(
  pairs: MatchedPairs,
  { level }: Level,
): Estimate & { readonly standardError: number | null } {
  const n = countOf(pairs);
  const basis: Basis = { level, method: 'mcnemar-difference', n, exposure: null, notes: [] };
  const refuse = (reason: string) => ({ ...notEstimable(reason, basis), standardError: null });
  if (n === 0) return refuse('There are no pairs.');
  const { onlyFirst, onlySecond } = pairs;
  const estimate = (onlyFirst - onlySecond) / n;
  const variance = ((onlyFirst + onlySecond) / n - estimate ** 2) / n;
  if (onlyFirst + onlySecond === 0)
    return refuse('In every pair both members are alike, so nothing shows how much pairs vary.');
  if (onlyFirst === n || onlySecond === n)
    return refuse('All pairs differ in the same way, so nothing shows how much pairs vary.');
  const standardError = Math.sqrt(variance);
  const margin = normalCritical(level) * standardError;
  const limits = { lower: estimate - margin, upper: estimate + margin };
  return { ...estimated({ ...basis, estimate, ...limits }), standardError };
}

/**
 * McNemar's test that both members of a pair say yes equally often, 1 degree of freedom; only pairs
 * that differ count. With continuity 1 is taken off their difference, never past 0. Not testable
 * when no pair differs.
 * Source: McNemar 1947, Psychometrika 12:153; continuity Edwards 1948.
 */
export function mcnemarTest(pairs: MatchedPairs, { continuity }: Continuity): TestOutcome {
  countOf(pairs);
  const method = continuity ? 'mcnemar-continuity' : 'mcnemar';
  const differing = pairs.onlyFirst + pairs.onlySecond;
  if (differing === 0) return { kind: 'not-estimable', method, reason: NO_PAIR_DIFFERS };
  const gap = Math.abs(pairs.onlyFirst - pairs.onlySecond);
  const shortened = Math.max(0, gap - (continuity ? 1 : 0));
  return chiSquareTested({ method, statistic: shortened ** 2 / differing, df: 1 });
}

/** The reason given where a test of paired outcomes has nothing to work on. */
export const NO_PAIR_DIFFERS = 'No pair differs, so neither member can be told from the other.';

/**
 * Number of pairs in the four cells.
 * @throws RangeError when a cell is negative or not a number, which is a mistake of the caller.
 */
export function countOf({ bothYes, onlyFirst, onlySecond, neither }: MatchedPairs): number {
  const cells = [bothYes, onlyFirst, onlySecond, neither];
  if (!cells.every((cell) => cell >= 0 && Number.isFinite(cell)))
    throw new RangeError(`Pairs are counted from 0 up, not ${cells.join(', ')}.`);
  return cells.reduce((sum, cell) => sum + cell, 0);
}
