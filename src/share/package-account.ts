import type { TripDetail } from './trip-classes.ts';

/**
 * What a package says of itself: only what may leave. The number of trips left out is one more sum:
 * it is told only where the totals show it anyway, as less the totals it could show a small group.
 */
export interface PackageAccount {
  /** Trips and vessels in the rows. */
  readonly trips: number;
  readonly vessels: number;
  /** First and last period of the rows, as texts; null where there is no row. */
  readonly span: readonly [string, string] | null;
  /** The fewest trips in a group of the package, and the fewest vessels. */
  readonly smallest: { readonly trips: number; readonly vessels: number };
  readonly leftOut:
    | { readonly kind: 'none' }
    | { readonly kind: 'untold' }
    | { readonly kind: 'trips'; readonly trips: number };
  /** null: a package of trips one by one. */
  readonly cells: CellAccount | null;
  /** null: a package of cells. */
  readonly classes: ClassAccount | null;
}

/** What was done to rows of cells. */
export interface CellAccount {
  /** Rows whose cell is larger than was asked for. */
  readonly merged: number;
  readonly totals: number;
  readonly totalsWithheld: number;
  /** Fewest trips in a group that subtracting rows from totals shows; null: it shows none. */
  readonly smallestRest: number | null;
}

/** How well trips hide among each other. */
export interface ClassAccount {
  readonly detail: TripDetail;
  readonly classes: number;
  /** Fewest trips alike in all that could point to one of them. */
  readonly k: number;
  /** Fewest different sizes of catch among those. */
  readonly l: number;
  /** Whether less was told than was asked for. */
  readonly isCoarser: boolean;
}
