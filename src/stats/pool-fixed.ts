import { type Estimated, estimated, type NotEstimable } from '../base/estimate.ts';
import { normalTails } from './distributions.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { notPooled, poolingRefusal, type Study, weightedMean } from './pool-study.ts';

/** A mean over studies with a normal interval; `n` counts the studies. */
export interface PooledEffect extends Estimated {
  readonly se: number;
  /** estimate/se, and its two-sided p. */
  readonly z: number;
  readonly p: number;
  /** What each study weighs, in the order given; adds up to 100. */
  readonly weightsPercent: readonly number[];
}

/**
 * The mean of several studies as if all had the same true effect (fixed effect): weights 1/variance,
 * normal interval. It answers for these studies only. One study gives back itself.
 * Not estimable without a study, or where one has no finite effect or no variance above 0.
 * Source: Cochran 1954, Biometrics 10:101; Hedges & Olkin 1985, Statistical Methods for
 * Meta-Analysis.
 */
export function poolFixed(
  studies: readonly Study[],
  { level }: Level,
): PooledEffect | NotEstimable {
  const reason = poolingRefusal(studies);
  if (reason !== null) return notPooled(reason, { studies, level, method: 'pool-fixed' });
  return pooledAt(studies, 0, { level, method: 'pool-fixed' });
}

/** The mean and its normal interval if the true effects vary with variance `tau2`. */
export function pooledAt(
  studies: readonly Study[],
  tau2: number,
  { level, method }: Level & { readonly method: string },
): PooledEffect {
  const { mean, totalWeight, weights } = weightedMean(studies, tau2);
  const se = Math.sqrt(1 / totalWeight);
  const margin = normalCritical(level) * se;
  const z = mean / se;
  return {
    ...estimated({
      level,
      method,
      n: studies.length,
      exposure: null,
      notes: studies.length === 1 ? ['One study alone: nothing was pooled.'] : [],
      estimate: mean,
      lower: mean - margin,
      upper: mean + margin,
    }),
    se,
    z,
    p: 2 * normalTails(-Math.abs(z)).lower,
    weightsPercent: weights.map((w) => (100 * w) / totalWeight),
  };
}
