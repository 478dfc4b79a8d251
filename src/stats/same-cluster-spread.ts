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
  /** Its share of the total weight, 0 to 1; the shares add up to 1. */
  readonly leverage: number;
}

/**
 * The CR2 form of the variance of a weighted mean over clusters, Σ U²/(1 − h), and its
 * Bell–McCaffrey degrees of freedom. Needs every leverage below 1, hence at least two clusters with
 * weight.
 *
 * The degrees of freedom are 1/(Σa² − 2Σab + (Σb)²) with a = h/(1 − h), b = ah. As a = h + b the
 * bracket equals Σh² + 2Σ_{i<j} b_i b_j, which is summed here because it subtracts nothing.
 * Source: Bell & McCaffrey 2002, Survey Methodology 28:169.
 */
export function clusterSpread(clusters: readonly ClusterInfluence[]): ClusterSpread {
  let variance = 0;
  let inverseDf = 0;
  let earlier = 0;
  for (const { influence, leverage: h } of clusters) {
    variance += influence ** 2 / (1 - h);
    const b = h ** 2 / (1 - h);
    inverseDf += h ** 2 + 2 * earlier * b;
    earlier += b;
  }
  return { variance, df: 1 / inverseDf };
}
