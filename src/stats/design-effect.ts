import { type GroupSize, groupSize } from './sample-size.ts';

/**
 * How many times as many units are needed, or how many times as large a variance is, when units
 * come in clusters (bites in trips) and are alike within: 1 + (m − 1)·ρ, with m units a cluster and
 * ρ the intraclass correlation. 1 at ρ = 0, m at ρ = 1; below 1 where ρ is negative.
 * Unequal clusters: m is the size the average unit finds itself in, Σm²/Σm.
 * Source: Kish 1965, Survey Sampling, ch. 5; Donner & Klar 2000, Cluster Randomization Trials.
 */
export function designEffect(unitsPerCluster: number, intraclassCorrelation: number): number {
  return 1 + (unitsPerCluster - 1) * intraclassCorrelation;
}

/** A group's size once its units come in clusters. */
export interface ClusterSize extends GroupSize {
  readonly designEffect: number;
  /** Clusters (trips) that hold so many units, rounded up. */
  readonly clusters: number;
}

/**
 * A number of independent units turned into units in clusters and clusters.
 * @param units not rounded, above 0.
 * @param clustering `unitsPerCluster` above 0, mean units that a trip brings; `designEffect` from
 *   the log itself or from the function of that name.
 */
export function clusterSize(
  units: number,
  clustering: { readonly unitsPerCluster: number; readonly designEffect: number },
): ClusterSize {
  const { unitsPerCluster, designEffect: effect } = clustering;
  if (!(unitsPerCluster > 0))
    throw new RangeError(`A cluster holds more than ${unitsPerCluster} units.`);
  const inflated = groupSize(units * effect);
  const { wholeUnits: clusters } = groupSize(inflated.units / unitsPerCluster);
  return { ...inflated, designEffect: effect, clusters };
}
