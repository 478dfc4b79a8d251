import { notEstimable } from '../base/estimate.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import type { Level } from './interval-level.ts';
import {
  type StratifiedRatio,
  type Stratum,
  stratumCount,
  total,
  weighedStrata,
} from './mantel-haenszel-strata.ts';
import { logNormalRatio } from './ratio-of-log-normal.ts';

/**
 * The Mantel–Haenszel ratio of two proportions over independent strata, first over second, with the
 * Greenland–Robins interval on the log scale. Not estimable when a group has no events in the strata
 * that hold both, or when every unit there was an event, because then nothing varies.
 * Source: Greenland & Robins 1985, Biometrics 41:55.
 */
export function mantelHaenszelRiskRatio(
  strata: readonly Stratum[],
  { level }: Level,
): StratifiedRatio {
  const count = stratumCount(strata);
  const used = weighedStrata(strata);
  const n = total(used, (stratum) => stratum.n);
  const basis = { level, method: 'mantel-haenszel-risk-ratio', n, exposure: null, notes: [] };
  const refuse = (reason: string) => ({ ...notEstimable(reason, basis), ...count });
  if (used.length === 0) return refuse('No stratum holds both groups.');
  const first = total(used, (stratum) => stratum.first);
  const second = total(used, (stratum) => stratum.second);
  if (first === 0 || second === 0)
    return refuse(
      `The ${first === 0 ? 'first' : 'second'} group has no events where both groups were seen, so no ratio can be formed.`,
    );
  const spread = total(used, ({ x1, x2, n, weight }) =>
    differenceBeyondRounding(weight * ((x1 + x2) / n), (x1 * x2) / n),
  );
  if (spread === 0) return refuse('Every unit was an event, so nothing shows how much it varies.');
  const logVariance = spread / first / second;
  return { ...logNormalRatio({ estimate: first / second, logVariance }, basis), ...count };
}
