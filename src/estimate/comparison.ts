import type { Estimate } from '../base/estimate.ts';
import type { FactorName } from '../tally/factors.ts';
import type { DroppedCovariate, Lens, LensName } from './lens.ts';
import type { Contrast } from './level-pairs.ts';
import type { CrossTable } from './tied-factors.ts';

/** Two levels of one factor, seen three ways, and what stands in the way of seeing clearly. */
export interface Comparison extends Contrast {
  readonly level: number;
  readonly lenses: Readonly<Record<LensName, Lens>>;
  /** Who fished where, for every covariate asked for. */
  readonly crossTables: readonly CrossTable[];
  /** Covariates that the factor cannot be told from, each with its sentence. */
  readonly tied: readonly DroppedCovariate[];
  readonly season: SeasonCourse;
}

/** The same-day difference as the season went on, under an interval that may be read every day. */
export interface SeasonCourse {
  readonly steps: readonly CourseStep[];
  /** Date of the trip from which the interval has excluded 0; null: it does not. */
  readonly clearSince: string | null;
  /** Why there is no such interval; null where there is. */
  readonly refused: string | null;
}

export interface CourseStep {
  readonly date: string;
  readonly difference: Estimate;
}

/** The covariates a comparison holds equal unless told otherwise. */
export const DEFAULT_COVARIATES: readonly FactorName[] = ['reach', 'bait', 'month', 'wind_band'];
