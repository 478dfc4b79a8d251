import { type Basis, type Estimated, estimated, type NotEstimable } from '../base/estimate.ts';
import { normalCritical } from './interval-level.ts';
import type { StratumCount } from './mantel-haenszel-strata.ts';

/** A ratio over strata; its standard error is that of the logarithm. */
export type StratifiedRatio =
  | (Estimated & StratumCount & { readonly logStandardError: number })
  | (NotEstimable & StratumCount);

/** A ratio above 0 with its normal interval on the log scale. */
export function logRatioEstimate(
  { estimate, logVariance }: { readonly estimate: number; readonly logVariance: number },
  basis: Basis,
): Estimated & { readonly logStandardError: number } {
  const logStandardError = Math.sqrt(logVariance);
  const factor = Math.exp(normalCritical(basis.level) * logStandardError);
  const limits = { lower: estimate / factor, upper: estimate * factor };
  return { ...estimated({ ...basis, estimate, ...limits }), logStandardError };
}
