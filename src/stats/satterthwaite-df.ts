import { type Column, combine, dot } from './design-columns.ts';
import { solveUpperTransposed } from './pivoted-qr.ts';
import { type ClusterCovariance, sumByCluster } from './sandwich-cluster.ts';

/**
 * Satterthwaite degrees of freedom of the variance of one contrast Σ cⱼ·bⱼ under a cluster-robust
 * covariance: those of the χ² with the same mean and variance, were the model true. Never below 1;
 * equal, balanced clusters give G − 1.
 * @param contrast one weight for each coefficient of the model, not all 0
 * @returns null for a contrast in which no residual takes part (every cluster fits it exactly)
 * Source: Bell & McCaffrey 2002, Survey Methodology 28:169; Pustejovsky & Tipton 2018, eq. 11. The
 * sums over pairs of clusters are gathered in a matrix of the size of the coefficients.
 */
export function satterthwaiteDf(covariance: ClusterCovariance, contrast: Column): number | null {
  const { model, adjusted, clusterOf, clusters } = covariance;
  const c = solveUpperTransposed(model.r, contrast);
  const a = combine(adjusted, c, model.rows.length);
  const ownSums = sumByCluster([a], a, { clusterOf, clusters }).getColumn(0);
  const z = sumByCluster(model.q, a, { clusterOf, clusters });
  const pairs = z.transpose().mmul(z);
  let mean = 0;
  let square = pairs.dot(pairs);
  for (const [cluster, own] of ownSums.entries()) {
    const row = z.getRow(cluster);
    const shared = row.reduce((sum, value) => sum + value * value, 0);
    mean += own - shared;
    square += own * (own - 2 * shared);
  }
  if (mean <= 1e-12 * dot(c, c) || square <= 0) return null;
  return Math.max(1, (mean * mean) / square);
}
