import { notEstimable } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import type { Level } from './interval-level.ts';
import { basisOfRates, weighedRates } from './mantel-haenszel-rates.ts';
import { total } from './mantel-haenszel-strata.ts';
import { type LogNormalRatio, logNormalRatio } from './ratio-of-log-normal.ts';

/**
 * The Mantel–Haenszel ratio of two Poisson rates over strata, first over second (above 0), with the
 * Greenland–Robins interval on the log scale. Not estimable when a group has no events in the strata
 * where both have exposure.
 * Source: Greenland & Robins 1985, Biometrics 41:55.
 */
export function mantelHaenszelRateRatio(
  strata: readonly TwoRates[],
  { level }: Level,
): LogNormalRatio {
  const used = weighedRates(strata);
  const basis = basisOfRates(used, { level, method: 'mantel-haenszel-rate-ratio' });
  if (used.length === 0) return notEstimable('No stratum has exposure in both groups.', basis);
  const first = total(used, (stratum) => stratum.first);
  const second = total(used, (stratum) => stratum.second);
  if (first === 0 || second === 0)
    return notEstimable(
      `The ${first === 0 ? 'first' : 'second'} group has no events where both groups have exposure, so no ratio can be formed.`,
      basis,
    );
  const spread = total(
    used,
    ({ events1, events2, exposure1, exposure2, weight }) =>
      (events1 + events2) * (weight / (exposure1 + exposure2)),
  );
  return logNormalRatio({ estimate: first / second, logVariance: spread / first / second }, basis);
}
