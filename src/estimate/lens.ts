import { type Estimate, notEstimable } from '../base/estimate.ts';
import type { FactorName } from '../tally/factors.ts';

/** The three ways to look at a difference, from the plainest to the most careful. */
export const LENS_NAMES = ['as_logged', 'same_day', 'adjusted'] as const;
export type LensName = (typeof LENS_NAMES)[number];

/** A covariate left out of the adjusted lens, wholly or in some of its levels, and why. */
export interface DroppedCovariate {
  readonly covariate: FactorName;
  readonly reason: string;
}

/** One comparison of level A with level B, seen one way. Differences are A − B, ratios A ÷ B. */
export interface Lens {
  readonly name: LensName;
  readonly difference: Estimate;
  readonly ratio: Estimate;
  /** null for rates, whose odds have no meaning. */
  readonly oddsRatio: Estimate | null;
  readonly a: Estimate;
  readonly b: Estimate;
  /** Trips the lens stands on. */
  readonly trips: number;
  /** Bites (or hooked fish) the lens stands on; for a rate, the bites counted in it. */
  readonly bites: number;
  readonly method: string;
  readonly covariates: readonly FactorName[];
  readonly dropped: readonly DroppedCovariate[];
  /** Why the lens cannot be looked through; null where it stands. */
  readonly refused: string | null;
}

/** The same lens with its figures withdrawn: what it stood on is still told. */
export function refuseLens(lens: Lens, reason: string): Lens {
  const { level, n, exposure } = lens.difference;
  const none = notEstimable(reason, { level, method: lens.method, n, exposure, notes: [] });
  return {
    ...lens,
    difference: none,
    ratio: none,
    oddsRatio: null,
    a: none,
    b: none,
    refused: reason,
  };
}
