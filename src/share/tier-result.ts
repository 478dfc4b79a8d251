import type { EffortBasis } from './effort-basis.ts';
import type { PackageAccount } from './package-account.ts';
import type { ShareTrip } from './share-trip.ts';
import type { SharedPackage } from './shared-package.ts';
import type { SharedRate } from './shared-rates.ts';

/** What is not in the rows; for the owner's eyes only. */
export interface Hidden {
  /** Trips in no row, whatever the reason. */
  readonly trips: number;
  /** Squares too small to be shown. */
  readonly squares: readonly HiddenSquare[];
  /** Squares that could have been shown, given up so that a total may stand. */
  readonly givenUp: readonly HiddenSquare[];
  /** Trips without a place. */
  readonly unplaced: number;
  /** Trips without the effort that the others have. */
  readonly withoutEffort: number;
  readonly totalsWithheld: number;
}

/** A square that stands in no row. */
export interface HiddenSquare {
  readonly period: string;
  readonly cell: string;
  readonly trips: number;
  readonly vessels: number;
}

/** Trips made ready to leave, in one tier or the other. */
export interface TierResult {
  readonly content: SharedPackage['content'];
  readonly basis: EffortBasis;
  readonly rates: readonly SharedRate[];
  /** Trips in the rows. */
  readonly shown: readonly ShareTrip[];
  /** Codes that rows may hold. */
  readonly species: readonly string[];
  /** Groups of trips whose sums the package shows, or lets be worked out. */
  readonly groups: readonly (readonly ShareTrip[])[];
  /** The fewest trips that the package promises for each. */
  readonly leastTrips: number;
  readonly account: PackageAccount;
  readonly hidden: Hidden;
}
