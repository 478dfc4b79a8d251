import { ratioTrip } from '../stats/clustered-ratio-trip.ts';
import { withinTripCorrelation } from '../stats/clustered-wilson-trip.ts';
import { sameClusterDifference } from '../stats/same-cluster-difference.ts';
import { type ClusterPair, pairedClusters } from '../stats/same-cluster-pairs.ts';
import { sameClusterRateRatio } from '../stats/same-cluster-ratio.ts';
import type { Measure } from '../tally/measures.ts';
import type { TallyRow } from '../tally/tallies.ts';
import { eventsAndUnits } from './level-pairs.ts';
import type { PlanDesign } from './plan-design.ts';
import type { PlanStrata } from './plan-strata.ts';
import { isProportion } from './proportion.ts';

/**
 * Strata with both halves from which their spread is taken. On 20 a variance is known to within a
 * third or so (√(2/19)); on fewer, the within-trip correlation of all bites says more.
 */
export const FEWEST_STRATA = 20;

/** How much more a comparison within strata varies than that of so many independent bites. */
export interface PlanSpread {
  /**
   * The design effect: variance of the comparison over that of independent bites (binomial) or
   * events (Poisson). Below 1 where days differ, since a day's own luck falls out of a comparison
   * within it.
   */
  readonly designEffect: number;
  /**
   * `same-day`: from trips that fished both levels. `sides`, `neighbours`: from the log's own sides
   * or neighbouring trips. `correlation`: worked out from how alike bites of one trip are.
   * `assumed`: nothing in the log tells.
   */
  readonly from: 'same-day' | 'sides' | 'neighbours' | 'correlation' | 'assumed';
  /** Trips or pairs of trips it was taken from; 0 if worked out or assumed. */
  readonly strata: number;
  /** How alike bites of one trip are, 0 to 1; null for a rate, or where it cannot be told. */
  readonly correlation: number | null;
}

/** What is known of the spread, the better source first. */
export interface SpreadSources {
  readonly measure: Measure;
  readonly design: PlanDesign;
  /** A and B on each trip of the log that fished them. */
  readonly levels: readonly ClusterPair[];
  readonly strata: PlanStrata;
  /** The whole log, one row a trip. */
  readonly whole: readonly TallyRow[];
}

/**
 * The design effect of a comparison within strata, from the log's own strata where it has enough.
 * It is held to what the day's own luck leaves at the least, 1 − correlation (1 for a rate): below
 * that lies the luck of few trips.
 * Source: Kish 1965 (design effect); 1 − correlation for a contrast within clusters: Donner & Klar
 * 2000, Design and Analysis of Cluster Randomization Trials, from memory.
 */
export function planSpread(sources: SpreadSources): PlanSpread {
  const { measure, strata, levels } = sources;
  const correlation = isProportion(measure) ? correlationOf(sources) : null;
  const least = 1 - (correlation ?? 0);
  const places =
    strata.from === 'even' ? [] : [{ from: strata.from, pairs: strata.pairs } as const];
  for (const { from, pairs } of [{ from: 'same-day', pairs: levels } as const, ...places]) {
    const both = pairs.filter(({ n1, n2 }) => n1 > 0 && n2 > 0);
    const seen = both.length < FEWEST_STRATA ? null : observedEffect(both, measure);
    if (seen === null) continue;
    return { designEffect: Math.max(least, seen), from, strata: both.length, correlation };
  }
  return { ...workedOut(sources, correlation), strata: 0, correlation };
}

function correlationOf({ whole, measure }: SpreadSources): number | null {
  return withinTripCorrelation(
    whole.map((row) => {
      const { events, units } = eventsAndUnits(row, measure);
      return { successes: events, units };
    }),
  );
}

/** Variance of the same-cluster comparison over that of independent bites or events. */
function observedEffect(pairs: readonly ClusterPair[], measure: Measure): number | null {
  const share = isProportion(measure);
  const seen = (share ? sameClusterDifference : sameClusterRateRatio)(pairs, { level: 0.95 });
  if (seen.kind === 'not-estimable') return null;
  const plain = share ? binomialVariance(pairs) : poissonVariance(pairs);
  return plain > 0 ? seen.standardError ** 2 / plain : null;
}

/** Of the weighted difference, were all bites of a level alike: Σ w²(p₁q₁/n₁ + p₂q₂/n₂)/(Σw)². */
function binomialVariance(clusters: readonly ClusterPair[]): number {
  const { p1, p2, weights, total } = weighed(clusters);
  return weights.reduce((sum, { weight, n1, n2 }) => {
    const spread = (p1 * (1 - p1)) / n1 + (p2 * (1 - p2)) / n2;
    return sum + (weight / total) ** 2 * spread;
  }, 0);
}

/** Of the log of the weighted ratio, were events Poisson: Σ w²(1/(λ₁n₁) + 1/(λ₂n₂))/(Σw)². */
function poissonVariance(clusters: readonly ClusterPair[]): number {
  const { p1, p2, weights, total } = weighed(clusters);
  return weights.reduce((sum, { weight, n1, n2 }) => {
    return sum + (weight / total) ** 2 * (1 / (p1 * n1) + 1 / (p2 * n2));
  }, 0);
}

function weighed(clusters: readonly ClusterPair[]) {
  const { pairs } = pairedClusters(clusters);
  const sum = (of: (pair: ClusterPair) => number) => pairs.reduce((so, pair) => so + of(pair), 0);
  const weights = pairs.map(({ n1, n2 }) => ({ n1, n2, weight: n1 * (n2 / (n1 + n2)) }));
  return {
    p1: sum(({ x1 }) => x1) / sum(({ n1 }) => n1),
    p2: sum(({ x2 }) => x2) / sum(({ n2 }) => n2),
    weights,
    total: weights.reduce((so, { weight }) => so + weight, 0),
  };
}

/**
 * Between two trips a day's luck stays in: 1 − ρ + 2ρ·Σw²/Σw for a share; for a rate, how much trips
 * of this log vary beyond Poisson.
 */
function workedOut(
  { measure, design, strata, whole }: SpreadSources,
  correlation: number | null,
): Pick<PlanSpread, 'designEffect' | 'from'> {
  if (isProportion(measure)) {
    if (correlation === null) return { designEffect: 1, from: 'assumed' };
    const within = 1 - correlation;
    if (design === 'sides') return { designEffect: within, from: 'correlation' };
    const total = strata.weights.reduce((sum, weight) => sum + weight, 0);
    const squares = strata.weights.reduce((sum, weight) => sum + weight * weight, 0);
    return { designEffect: within + (2 * correlation * squares) / total, from: 'correlation' };
  }
  if (design === 'sides') return { designEffect: 1, from: 'assumed' };
  const trips = whole.map((row) => {
    const { events, units } = eventsAndUnits(row, measure);
    return { events, exposure: units };
  });
  const { designEffect } = ratioTrip(trips, { level: 0.95 });
  return designEffect === null
    ? { designEffect: 1, from: 'assumed' }
    : { designEffect, from: 'correlation' };
}
