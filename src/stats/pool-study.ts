import { type NotEstimable, notEstimable } from '../base/estimate.ts';

/** One study (a boat, a season) as pooling needs it; no raw row of it. */
export interface Study {
  /** On a scale where it may take any value: a log rate, a logit, a difference. */
  readonly effect: number;
  /** Sampling variance of the effect, above 0. */
  readonly variance: number;
}

/** Sums over studies, each weighted by 1/(variance + τ²). */
export interface WeightedMean {
  readonly weights: readonly number[];
  readonly totalWeight: number;
  readonly mean: number;
  /** Σ weight·(effect − mean)²: Cochran's Q at τ² = 0, its general form elsewhere. */
  readonly spread: number;
}

/** The mean of the studies if their true effects vary with variance `tau2` (0 or more). */
export function weightedMean(studies: readonly Study[], tau2: number): WeightedMean {
  const weights = studies.map(({ variance }) => 1 / (variance + tau2));
  const totalWeight = weights.reduce((sum, w) => sum + w, 0);
  const over = (of: (effect: number) => number): number =>
    studies.reduce((sum, { effect }, i) => sum + (weights[i] as number) * of(effect), 0);
  const mean = over((effect) => effect) / totalWeight;
  return { weights, totalWeight, mean, spread: over((effect) => (effect - mean) ** 2) };
}

/** Why these studies cannot be pooled at all, or null where they can. */
export function poolingRefusal(studies: readonly Study[]): string | null {
  if (studies.length === 0) return 'There is nothing to pool.';
  if (studies.some(({ effect }) => !Number.isFinite(effect)))
    return 'One of the effects is infinite (no event, say), so no mean of them exists.';
  if (studies.some(({ variance }) => !(variance > 0 && variance < Number.POSITIVE_INFINITY)))
    return 'One of the effects has no variance of its own, so its weight is not known.';
  return null;
}

/** A refusal to pool in the form of an estimate; `n` counts the studies. */
export function notPooled(
  reason: string,
  of: { readonly studies: readonly Study[]; readonly level: number; readonly method: string },
): NotEstimable {
  const { studies, level, method } = of;
  return notEstimable(reason, { level, method, n: studies.length, exposure: null, notes: [] });
}
