import type { TestOutcome } from '../base/test-outcome.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import type { Continuity } from './difference-chi-square.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import { type Stratum, total, weighedStrata } from './mantel-haenszel-strata.ts';

/**
 * The Cochran–Mantel–Haenszel test that two groups do not differ in any stratum, 1 degree of
 * freedom; it finds differences that point one way. With continuity half an event is taken off
 * before squaring. Not testable where no stratum holds both groups and both outcomes.
 * Source: Mantel & Haenszel 1959, J Natl Cancer Inst 22:719; Cochran 1954.
 */
export function mantelHaenszelTest(
  strata: readonly Stratum[],
  { continuity }: Continuity,
): TestOutcome {
  const method = continuity ? 'mantel-haenszel-test-continuity' : 'mantel-haenszel-test';
  const used = weighedStrata(strata);
  const variance = total(used, ({ x1, x2, n, weight }) =>
    n > 1 ? (weight * ((x1 + x2) / n) * (n - x1 - x2)) / (n - 1) : 0,
  );
  if (variance === 0)
    return {
      kind: 'not-estimable',
      method,
      reason: 'No stratum holds both groups and both outcomes, so there is nothing to test.',
    };
  // Events of the first group above what its share of all events would be.
  const excess = total(
    used,
    ({ x1, n1, x2, n2, n }) => differenceBeyondRounding(x1 * n2, x2 * n1) / n,
  );
  const shortened = Math.max(0, Math.abs(excess) - (continuity ? 0.5 : 0));
  return chiSquareTested({ method, statistic: shortened ** 2 / variance, df: 1 });
}
