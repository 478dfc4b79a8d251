import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import type { Level } from './interval-level.ts';
import {
  compareWithinClusters,
  type SameClusterEstimate,
  type WithinClusters,
} from './same-cluster-comparison.ts';
import type { ClusterPair } from './same-cluster-pairs.ts';

/**
 * The ratio of two rates compared within the same trip: first over second, above 0, and its
 * interval on the log scale from the spread between the trips that have both levels.
 * Not estimable with fewer than two such trips, with no events at a level, with all events on one
 * trip, or when all trips say the same. `standardError` is that of the logarithm.
 * Source: Greenland & Robins 1985, Biometrics 41:55 (the ratio); Bell & McCaffrey 2002 (variance and
 * degrees of freedom, on each trip's share of the weighted events).
 * @param clusters one entry a trip; n1, n2 line-hours
 */
export function sameClusterRateRatio(
  clusters: readonly ClusterPair[],
  { level }: Level,
): SameClusterEstimate {
  return compareWithinClusters(clusters, {
    level,
    method: 'same-day-rate-ratio',
    units: 'exposure',
    scale: 'log',
    compare: weightedRatio,
  });
}

/**
 * The ratio of two proportions compared within the same trip: as `sameClusterRateRatio`, with
 * bites or hooked fish as units.
 */
export function sameClusterRiskRatio(
  clusters: readonly ClusterPair[],
  { level }: Level,
): SameClusterEstimate {
  return compareWithinClusters(clusters, {
    level,
    method: 'same-day-risk-ratio',
    units: 'count',
    scale: 'log',
    compare: weightedRatio,
  });
}

function weightedRatio(pairs: readonly ClusterPair[]): WithinClusters | string {
  const events = pairs.map(({ x1, n1, x2, n2 }) => ({
    first: x1 * (n2 / (n1 + n2)),
    second: x2 * (n1 / (n1 + n2)),
  }));
  const first = events.reduce((sum, trip) => sum + trip.first, 0);
  const second = events.reduce((sum, trip) => sum + trip.second, 0);
  if (first === 0 || second === 0) return noEvents(first, second);
  const clusters = events.map((trip) => {
    const shares = { first: trip.first / first, second: trip.second / second };
    return {
      influence: differenceBeyondRounding(shares.first, shares.second),
      weight: (shares.first + shares.second) / 2,
    };
  });
  if (clusters.filter(({ weight }) => weight > 0).length < 2)
    return 'All events of the trips with both levels fell on one trip, and one trip cannot show how much trips vary.';
  return { estimate: first / second, clusters };
}

function noEvents(first: number, second: number): string {
  const seconds = second === 0 ? 'the second level' : 'the first level';
  const where = first === second ? 'either level' : seconds;
  return `On the trips with both levels there were no events at ${where}, so no ratio can be formed; the difference may be.`;
}
