import { type Basis, type Estimated, estimated, type NotEstimable } from '../base/estimate.ts';
import { normalCritical } from './interval-level.ts';

/** A ratio whose logarithm is taken as normal. */
export type LogNormalRatio = (Estimated & LogError) | NotEstimable;

export interface LogError {
  /** Standard error of the natural logarithm of the ratio. */
  readonly logStandardError: number;
}

/** A ratio above 0 with its normal interval on the log scale. */
export function logNormalRatio(
  { estimate, logVariance }: { readonly estimate: number; readonly logVariance: number },
  basis: Basis,
): Estimated & LogError {
  const logStandardError = Math.sqrt(logVariance);
  const factor = Math.exp(normalCritical(basis.level) * logStandardError);
  const limits = { lower: estimate / factor, upper: estimate * factor };
  return { ...estimated({ ...basis, estimate, ...limits }), logStandardError };
}
