import { type Refusal, refuse } from '../base/estimate.ts';
import { designEffect } from './design-effect.ts';

/** Successes out of units in one cluster, e.g. hooked out of bites on one trip. */
export interface ClusterCount {
  readonly successes: number;
  readonly units: number;
}

/** How alike the units of one cluster are, and what that does to a variance. */
export interface IntraclassCorrelation {
  readonly kind: 'estimated';
  readonly clusters: number;
  readonly units: number;
  readonly msBetween: number;
  readonly msWithin: number;
  /** The cluster size of the analysis of variance, a little below the mean size. */
  readonly n0: number;
  /** −1/(n0 − 1) to 1; below 0 where clusters are more alike than chance would make them. */
  readonly icc: number;
  /** The same, 0 in place of a negative value. */
  readonly iccTruncated: number;
  /** Smith's standard error of `icc`. */
  readonly seSmith: number;
  readonly meanClusterSize: number;
  /** The size of the cluster in which the average unit finds itself, Σn²/Σn. */
  readonly weightedClusterSize: number;
  /** Design effects with the two sizes and `icc` as it stands; below 1 where it is negative. */
  readonly designEffectMean: number;
  readonly designEffectWeighted: number;
}

/**
 * The intraclass correlation of a yes/no outcome by one-way analysis of variance. Clusters without
 * units are passed over.
 * Not estimable: fewer than two clusters, no cluster with two units (nothing shows how alike units
 * of one cluster are), or all units successes or none.
 * Source: Fleiss 1986, The Design and Analysis of Clinical Experiments; Ridout, Demétrio & Firth
 * 1999, Biometrics 55:137; standard error of Smith 1957, Ann. Hum. Genet. 21:363.
 */
export function intraclassCorrelation(
  counts: readonly ClusterCount[],
): IntraclassCorrelation | Refusal {
  const used = counts.filter(({ units }) => units > 0);
  const total = (of: (count: ClusterCount) => number): number =>
    used.reduce((sum, count) => sum + of(count), 0);
  const [K, N, X] = [used.length, total((c) => c.units), total((c) => c.successes)];
  if (K < 2) return refuse('It takes two clusters or more to tell how alike one cluster is.');
  if (!(N > K)) return refuse('No cluster holds two units, so nothing shows how alike they are.');
  if (X === 0 || X === N) return refuse('Every unit went the same way.');
  const within = total(({ successes, units }) => (successes / units) * (units - successes));
  const between = total(({ successes, units }) => (successes - (units * X) / N) ** 2 / units);
  const [msBetween, msWithin] = [between / (K - 1), within / (N - K)];
  const squares = total((c) => c.units ** 2);
  const n0 = (N - squares / N) / (K - 1);
  const icc = (msBetween - msWithin) / (msBetween + (n0 - 1) * msWithin);
  const [meanClusterSize, weightedClusterSize] = [N / K, squares / N];
  return {
    kind: 'estimated',
    clusters: K,
    units: N,
    msBetween,
    msWithin,
    n0,
    icc,
    iccTruncated: Math.max(0, icc),
    seSmith: smithError({ K, N, n0, squares, cubes: total((c) => c.units ** 3) }, icc),
    meanClusterSize,
    weightedClusterSize,
    designEffectMean: designEffect(meanClusterSize, icc),
    designEffectWeighted: designEffect(weightedClusterSize, icc),
  };
}

interface Sizes {
  readonly K: number;
  readonly N: number;
  readonly n0: number;
  readonly squares: number;
  readonly cubes: number;
}

function smithError({ K, N, n0, squares, cubes }: Sizes, icc: number): number {
  const withinPart = (1 + icc * (n0 - 1)) ** 2 / (N - K);
  const uneven = squares - (2 * cubes) / N + squares ** 2 / N ** 2;
  const betweenPart =
    ((1 - icc) * (1 + icc * (2 * n0 - 1)) * (K - 1) + icc ** 2 * uneven) / (K - 1) ** 2;
  return Math.sqrt(((2 * (1 - icc) ** 2) / n0 ** 2) * (withinPart + betweenPart));
}
