import type { Level } from './interval-level.ts';
import { mantelHaenszelOddsRatio } from './mantel-haenszel-odds-ratio.ts';
import type { StratifiedRatio } from './mantel-haenszel-strata.ts';
import { type ClusterPair, type PairedCount, pairedClusters } from './same-cluster-pairs.ts';

/**
 * The odds ratio of two proportions compared within the same trip, shown beside the difference:
 * Mantel–Haenszel over the trips with both levels, with the Robins–Breslow–Greenland interval, which
 * allows for many small trips but takes the units within a trip and level as independent.
 * Not estimable where no trip speaks for one of the levels.
 * Source: Robins, Breslow & Greenland 1986, Biometrics 42:311.
 */
export function sameClusterOddsRatio(
  clusters: readonly ClusterPair[],
  { level }: Level,
): StratifiedRatio & PairedCount {
  const { pairs, count } = pairedClusters(clusters);
  const ratio = mantelHaenszelOddsRatio(pairs, { level });
  return { ...ratio, ...count, method: 'same-day-odds-ratio' };
}
