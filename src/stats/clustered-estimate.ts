import type { Estimate } from '../base/estimate.ts';

/** What an estimate over trips tells beside its interval. */
export interface ClusterBasis {
  /** Trips with a denominator above 0. */
  readonly clusters: number;
  /** Variance over that of independent bites or events, at least 1; null when it cannot be told. */
  readonly designEffect: number | null;
  /** Of the t quantile behind the interval; null where a normal or exact quantile served. */
  readonly degreesOfFreedom: number | null;
  /** Independent bites (or events) the trips are worth; null when there is no interval. */
  readonly effectiveN: number | null;
}

/** An estimate whose interval knows that fish of one trip are alike. */
export type ClusteredEstimate = Estimate & ClusterBasis;

/** The reason given where a single trip would have to show a spread. */
export const ONE_CLUSTER = 'One trip cannot show how much trips differ.';

/** The reason given where trips agree so well that an interval would have no width. */
export const NO_SPREAD = 'Every trip had the same figure, so trips show no spread to judge by.';

/** Marks an interval that could not see how trips differ; the first two words are the mark. */
export const ONE_TRIP =
  'one trip: how much trips differ cannot be seen, so the interval may be too narrow.';
