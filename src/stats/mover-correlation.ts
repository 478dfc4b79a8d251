import { clusterRatio } from './clustered-ratio.ts';
import type { ClusterPair } from './same-cluster-pairs.ts';

/**
 * The correlation of two proportions or rates that come from partly the same trips: of the trips'
 * linearised residuals z = x − Rn, R = Σx/Σn, 0 where a trip lacks the level. −1 to 1; 0 when no
 * trip has both levels, or when a level's residuals are all 0 and so do not vary.
 * Source: Zou 2007, Psychol Methods 12:399 (what the correlation is for); the linearised residual of
 * a ratio, Cochran 1977, Sampling Techniques, ch. 6.
 * @param clusters one entry a trip; n1, n2 bites, hooked fish or line-hours
 */
export function moverCorrelation(clusters: readonly ClusterPair[]): number {
  const first = residuals(clusters.map(({ x1, n1 }) => ({ x: x1, n: n1 })));
  const second = residuals(clusters.map(({ x2, n2 }) => ({ x: x2, n: n2 })));
  const size = Math.sqrt(product(first, first)) * Math.sqrt(product(second, second));
  if (size === 0) return 0;
  return Math.max(-1, Math.min(1, product(first, second) / size));
}

/** One a trip; what is left of 0 by rounding is 0. */
function residuals(groups: readonly { readonly x: number; readonly n: number }[]): number[] {
  const { residuals: left = [] } =
    clusterRatio(
      groups.map(({ x }) => x),
      groups.map(({ n }) => n),
    ) ?? {};
  return groups.map(({ x }, i) => {
    const residual = left[i] ?? 0;
    return Math.abs(residual) <= 1e-12 * x ? 0 : residual;
  });
}

function product(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
}
