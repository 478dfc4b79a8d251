import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import type { Level } from './interval-level.ts';
import {
  compareWithinClusters,
  type SameClusterEstimate,
  type WithinClusters,
} from './same-cluster-comparison.ts';
import type { ClusterPair } from './same-cluster-pairs.ts';

/**
 * The difference of two proportions compared within the same trip: p₁ − p₂ averaged over the trips
 * that have both levels with Mantel–Haenszel weights n₁n₂/(n₁ + n₂), and a t interval from the
 * spread between those trips. −1 to 1; with few trips the limits may pass ±1.
 * Not estimable with fewer than two trips that have both levels, or when all of them say the same.
 * Source: Greenland & Robins 1985, Biometrics 41:55 (the weighted difference); Bell & McCaffrey 2002
 * (variance and degrees of freedom, on the trips' influences).
 * @param clusters one entry a trip; n1, n2 bites or hooked fish
 */
export function sameClusterDifference(
  clusters: readonly ClusterPair[],
  { level }: Level,
): SameClusterEstimate {
  return compareWithinClusters(clusters, {
    level,
    method: 'same-day-difference',
    units: 'count',
    scale: 'plain',
    compare: weightedDifference,
  });
}

/**
 * The difference of two rates compared within the same trip, in events per line-hour: as
 * `sameClusterDifference`, with line-hours in the place of the counts n₁ and n₂.
 */
export function sameClusterRateDifference(
  clusters: readonly ClusterPair[],
  { level }: Level,
): SameClusterEstimate {
  return compareWithinClusters(clusters, {
    level,
    method: 'same-day-rate-difference',
    units: 'exposure',
    scale: 'plain',
    compare: weightedDifference,
  });
}

function weightedDifference(pairs: readonly ClusterPair[]): WithinClusters {
  const weighed = pairs.map(({ x1, n1, x2, n2 }) => ({
    weight: n1 * (n2 / (n1 + n2)),
    gain: differenceBeyondRounding(x1 * n2, x2 * n1) / (n1 + n2),
  }));
  const total = weighed.reduce((sum, { weight }) => sum + weight, 0);
  const estimate = weighed.reduce((sum, { gain }) => sum + gain, 0) / total;
  const clusters = weighed.map(({ weight, gain }) => ({
    influence: differenceBeyondRounding(gain, estimate * weight) / total,
    weight,
  }));
  return { estimate, clusters };
}
