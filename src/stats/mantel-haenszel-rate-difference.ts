import { type Estimated, estimated, type NotEstimable, notEstimable } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { basisOfRates, type WeighedRates, weighedRates } from './mantel-haenszel-rates.ts';
import { total } from './mantel-haenszel-strata.ts';

/** A difference of rates over strata with its standard error. */
export type StratifiedRateDifference =
  | (Estimated & { readonly standardError: number })
  | NotEstimable;

/**
 * The Mantel–Haenszel difference of two Poisson rates over strata, first less second, in events per
 * unit of exposure, with a normal interval. Not estimable without events, or without a stratum where
 * both groups have exposure.
 * Source: Greenland & Robins 1985, Biometrics 41:55.
 */
export function mantelHaenszelRateDifference(
  strata: readonly TwoRates[],
  { level }: Level,
): StratifiedRateDifference {
  const used = weighedRates(strata);
  const basis = basisOfRates(used, { level, method: 'mantel-haenszel-rate-difference' });
  if (used.length === 0) return notEstimable('No stratum has exposure in both groups.', basis);
  if (basis.n === 0)
    return notEstimable('There were no events, so nothing shows how much they vary.', basis);
  const weight = total(used, (stratum) => stratum.weight);
  const estimate = total(used, ({ first, second }) => first - second) / weight;
  const standardError = Math.sqrt(total(used, poissonVariance)) / weight;
  const margin = normalCritical(level) * standardError;
  const limits = { lower: estimate - margin, upper: estimate + margin };
  return { ...estimated({ ...basis, estimate, ...limits }), standardError };
}

/** Weight² × Poisson variance of a stratum's difference. */
const poissonVariance = ({
  events1,
  exposure1,
  events2,
  exposure2,
  weight,
}: WeighedRates): number =>
  events1 * (weight / exposure1) * (weight / exposure1) +
  events2 * (weight / exposure2) * (weight / exposure2);
