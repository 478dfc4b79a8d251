import { bellMcCaffrey, restOf } from './clustered-ratio.ts';

/** The variance of an estimate from the spread between clusters, and how well it is known. */
export interface ClusterSpread {
  readonly variance: number;
  /** Degrees of freedom; clusters − 1 where all clusters weigh the same, fewer otherwise. */
  readonly df: number;
}

/** What each cluster does to an estimate. */
export interface ClusterInfluence {
  /** By how much the cluster's own residual moves the estimate. */
  readonly influence: number;
  /** Its weight, 0 or more, in any unit; its share of the total is its leverage h. */
  readonly weight: number;
}

/**
 * The CR2 form of the variance of a weighted mean over clusters, Σ U²/(1 − h), and its
 * Bell–McCaffrey degrees of freedom. Needs at least two clusters with weight.
 * Source: Bell & McCaffrey 2002, Survey Methodology 28:169.
 */
export function clusterSpread(clusters: readonly ClusterInfluence[]): ClusterSpread {
  const weights = clusters.map(({ weight }) => weight);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const others = restOf(weights, total);
  const variance = clusters.reduce(
    (sum, { influence }, i) => sum + influence ** 2 * (total / (others[i] as number)),
    0,
  );
  return { variance, df: bellMcCaffrey(weights, total) };
}
