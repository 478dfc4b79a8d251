/**
 * What one cluster (a trip) brought at each of two levels: x events among n units. Units are bites
 * or hooked fish for a proportion, line-hours for a rate; n = 0 where the cluster lacks the level.
 */
export interface ClusterPair {
  readonly x1: number;
  readonly n1: number;
  readonly x2: number;
  readonly n2: number;
}

/** How much of the log a comparison within clusters stands on. */
export interface PairedCount {
  /** Clusters with units at both levels: those that are compared. */
  readonly clustersUsed: number;
  /** Clusters with units at one level only, which say nothing about a difference within a day. */
  readonly clustersLeftOut: number;
  /** Units (bites, hooked fish or line-hours) of the clusters left out. */
  readonly unitsLeftOut: number;
}

/** The clusters with both levels, and the count of what that leaves out. */
export interface PairedClusters {
  readonly pairs: readonly ClusterPair[];
  readonly count: PairedCount;
}

/**
 * Keeps the clusters that have units at both levels. A cluster with neither level is no part of the
 * comparison and is not counted as left out.
 * @throws RangeError on a negative number or NaN, which is a mistake of the caller.
 */
export function pairedClusters(clusters: readonly ClusterPair[]): PairedClusters {
  for (const cluster of clusters) checkCluster(cluster);
  const pairs = clusters.filter(({ n1, n2 }) => n1 > 0 && n2 > 0);
  const leftOut = clusters.filter(({ n1, n2 }) => n1 > 0 !== n2 > 0);
  const unitsLeftOut = leftOut.reduce((sum, { n1, n2 }) => sum + n1 + n2, 0);
  return {
    pairs,
    count: { clustersUsed: pairs.length, clustersLeftOut: leftOut.length, unitsLeftOut },
  };
}

function checkCluster({ x1, n1, x2, n2 }: ClusterPair): void {
  if (![x1, n1, x2, n2].every((value) => value >= 0 && Number.isFinite(value)))
    throw new RangeError(`A cluster holds numbers of 0 or more, not ${x1}/${n1} and ${x2}/${n2}.`);
}
