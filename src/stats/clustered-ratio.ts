import { sum } from 'simple-statistics';
/**
 * A ratio of totals over clusters (trips): Σ numerator / Σ denominator, with the variance and the
 * degrees of freedom that the clusters themselves give. Proportions (successes over units) and
 * rates (events over exposure) are both of this kind.
 */
export interface ClusterRatio {
  /** Clusters with a denominator above 0; the others say nothing and are left out. */
  readonly clusters: number;
  readonly numerator: number;
  readonly denominator: number;
  /** Numerator that stood in clusters without a denominator, not part of `numerator`. */
  readonly numeratorLeftOut: number;
  readonly ratio: number;
  /** Numerator − ratio × denominator, one a cluster in the order given; 0 where left out. */
  readonly residuals: readonly number[];
  /** Bias-reduced (CR2) variance of the ratio; 0 with one cluster, which cannot show any. */
  readonly variance: number;
  /** Bell–McCaffrey degrees of freedom; clusters − 1 when all are the same size; 0 with one. */
  readonly degreesOfFreedom: number;
}

/**
 * Works out the ratio of totals over clusters with its CR2 variance Σ r²/(1 − h) / N², where h is
 * a cluster's share of the denominator. Null when no cluster has a denominator above 0.
 * Source: Cochran 1977 ch. 6 (ratio of totals); Bell & McCaffrey 2002 (CR2, degrees of freedom).
 * @param numerators one a cluster, 0 or more
 * @param denominators one a cluster, 0 or more, as many as numerators
 */
export function clusterRatio(
  numerators: ArrayLike<number>,
  denominators: ArrayLike<number>,
): ClusterRatio | null {
  const y = Array.from(numerators);
  const x = Array.from(denominators);
  const denominator = sum(x);
  if (denominator === 0) return null;
  const numerator = sum(y.map((value, i) => (at(x, i) > 0 ? value : 0)));
  const ratio = numerator / denominator;
  const residuals = y.map((value, i) => (at(x, i) > 0 ? value - ratio * at(x, i) : 0));
  const clusters = x.filter((value) => value > 0).length;
  const others = restOf(x, denominator);
  const squares = residuals.map((r, i) => (r * r) / (at(others, i) / denominator));
  return {
    clusters,
    numerator,
    denominator,
    numeratorLeftOut: sum(y) - numerator,
    ratio,
    residuals,
    variance: clusters < 2 ? 0 : sum(squares) / denominator ** 2,
    degreesOfFreedom: clusters < 2 ? 0 : bellMcCaffrey(x, denominator),
  };
}

/**
 * Degrees of freedom of a ratio's CR2 variance from its clusters' denominators x of total N:
 * 1 / (Σh² + Σ_{i≠j} β_i β_j) with h = x/N and β = h²/(1 − h). This is the contract's
 * N⁻² / (Σa² − 2Σab + (Σb)²) with the squares multiplied out, because one cluster that holds
 * nearly everything would otherwise leave a difference of huge numbers.
 * Source: Bell & McCaffrey 2002.
 */
export function bellMcCaffrey(x: readonly number[], total: number): number {
  const others = restOf(x, total);
  let before = 0;
  let inverse = 0;
  x.forEach((size, i) => {
    if (size === 0) return;
    const beta = (size / total) * (size / at(others, i));
    inverse += (size / total) ** 2 + 2 * beta * before;
    before += beta;
  });
  return 1 / inverse;
}

/** Total of all but each one, added up without it where it holds most, to keep the digits. */
export function restOf(x: readonly number[], total: number): number[] {
  return x.map((size, i) =>
    size > total / 2 ? sum(x.filter((_, other) => other !== i)) : total - size,
  );
}

const at = (values: readonly number[], index: number): number => values[index] as number;
