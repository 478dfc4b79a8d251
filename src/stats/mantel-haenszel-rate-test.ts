import type { TestOutcome } from '../base/test-outcome.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import type { TwoRates } from './difference-two-rates.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import { weighedRates } from './mantel-haenszel-rates.ts';
import { total } from './mantel-haenszel-strata.ts';

/**
 * The Mantel–Haenszel test that two Poisson rates do not differ in any stratum, without continuity
 * correction, 1 degree of freedom. Not testable without events, or without a stratum where both
 * groups have exposure.
 * Source: Shore, Pasternack & Curnen 1976 in the form of Greenland & Robins 1985, Biometrics 41:55.
 */
export function mantelHaenszelRateTest(strata: readonly TwoRates[]): TestOutcome {
  const method = 'mantel-haenszel-rate-test';
  const used = weighedRates(strata);
  const variance = total(
    used,
    ({ events1, events2, exposure1, exposure2, weight }) =>
      (events1 + events2) * (weight / (exposure1 + exposure2)),
  );
  if (variance === 0)
    return {
      kind: 'not-estimable',
      method,
      reason: 'There were no events where both groups have exposure, so there is nothing to test.',
    };
  const excess = total(used, ({ first, second }) => differenceBeyondRounding(first, second));
  return chiSquareTested({ method, statistic: excess ** 2 / variance, df: 1 });
}
