import {
  type Basis,
  type Estimated,
  estimated,
  type NotEstimable,
  notEstimable,
} from '../base/estimate.ts';
import { type Level, tCritical } from './interval-level.ts';
import { type ClusterPair, type PairedCount, pairedClusters } from './same-cluster-pairs.ts';
import { type ClusterInfluence, clusterSpread } from './same-cluster-spread.ts';

/** A comparison within clusters: the figure, what it stands on, and what it left out. */
export type SameClusterEstimate =
  | (Estimated & PairedCount & SameClusterError)
  | (NotEstimable & PairedCount);

export interface SameClusterError {
  /** Of the difference; of the logarithm for a ratio. */
  readonly standardError: number;
  /** Bell–McCaffrey degrees of freedom, which need not be whole. */
  readonly df: number;
}

/** One way to compare two levels within clusters. */
export interface SameClusterMethod extends Level {
  readonly method: string;
  /** `exposure`: n1 and n2 are line-hours; `count`: they are bites or hooked fish. */
  readonly units: 'count' | 'exposure';
  /** `log`: a ratio, its influences on its logarithm and its limits formed there. */
  readonly scale: 'plain' | 'log';
  /** The figure and each pair's influence on it, or the reason why there is none. */
  readonly compare: (pairs: readonly ClusterPair[]) => WithinClusters | string;
}

export interface WithinClusters {
  readonly estimate: number;
  readonly clusters: readonly ClusterInfluence[];
}

/**
 * Compares two levels over the clusters that have both, with a t interval from the spread between
 * them. Not estimable with fewer than two such clusters, for the method's own reason, or when all
 * of them say the very same, because then nothing shows how much clusters vary.
 */
export function compareWithinClusters(
  clusters: readonly ClusterPair[],
  { level, method, units, scale, compare }: SameClusterMethod,
): SameClusterEstimate {
  const { pairs, count } = pairedClusters(clusters);
  const total = pairs.reduce((sum, { n1, n2 }) => sum + n1 + n2, 0);
  const counted = units === 'count';
  const exposure = counted ? null : total;
  const basis: Basis = { level, method, n: counted ? total : pairs.length, exposure, notes: [] };
  const refuse = (reason: string) => ({ ...notEstimable(reason, basis), ...count });

  if (pairs.length < 2) return refuse(tooFewPairs(pairs.length));
  const within = compare(pairs);
  if (typeof within === 'string') return refuse(within);
  const { estimate } = within;
  const { variance, df } = clusterSpread(within.clusters);
  if (variance === 0) return refuse(noSpread(pairs.length, estimate));
  const standardError = Math.sqrt(variance);
  const margin = tCritical(level, df) * standardError;
  const limits =
    scale === 'plain'
      ? { lower: estimate - margin, upper: estimate + margin }
      : { lower: estimate * Math.exp(-margin), upper: estimate * Math.exp(margin) };
  return { ...estimated({ ...basis, estimate, ...limits }), ...count, standardError, df };
}

/** Why nothing can be compared within trips when none or only one of them has both levels. */
function tooFewPairs(pairs: number): string {
  return pairs === 0
    ? 'No trip had both levels, so nothing can be compared within a day.'
    : 'Only one trip had both levels, and one trip cannot show how much trips vary.';
}

function noSpread(pairs: number, estimate: number): string {
  const rounded = Number(estimate.toPrecision(3));
  return `All ${pairs} trips with both levels say the very same (${rounded}), so nothing shows how much trips vary.`;
}
