import type { CellRow } from './cell-rows.ts';
import type { EffortBasis } from './effort-basis.ts';
import type { PackageAccount } from './package-account.ts';
import type { ShareChoices } from './share-options.ts';
import type { SharedRate } from './shared-rates.ts';
import type { TotalRow } from './total-rows.ts';
import type { TripShareRow } from './trip-rows.ts';

/** Everything that is about to leave, before it is put into words and files. */
export interface SharedPackage {
  readonly choices: ShareChoices;
  readonly basis: EffortBasis;
  /** Whether some line-hours are hours fished × lines fished. */
  readonly isAssumed: boolean;
  readonly content: CellContent | TripContent;
  readonly rates: readonly SharedRate[];
  /** Pseudonyms of the vessels in the rows, so that nobody counts one boat twice. */
  readonly vessels: readonly string[];
  readonly account: PackageAccount;
  /** How many identifying values its files were held against. */
  readonly valuesLookedFor: number;
}

/** Rows of period, cell and gear. */
export interface CellContent {
  readonly tier: 'cells';
  readonly rows: readonly CellRow[];
  readonly totals: readonly TotalRow[];
}

/** Rows of trips. */
export interface TripContent {
  readonly tier: 'trips';
  readonly rows: readonly TripShareRow[];
}
