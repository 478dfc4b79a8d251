import type { ColumnSpec } from './column-spec.ts';
import { BITE_COLUMNS } from './columns-bites.ts';
import { BAIT_BUY_COLUMNS, SPOOL_COLUMNS } from './columns-purchases.ts';
import { SET_ASIDE_SPECS } from './columns-set-aside.ts';
import { SOAK_COLUMNS } from './columns-soaks.ts';
import { TALLY_COLUMNS } from './columns-tally.ts';
import { TRIP_COLUMNS } from './columns-trips.ts';
import type { TableFile } from './find-files.ts';

/** The columns of each file, in the order the contract lists them. */
export const COLUMNS_OF_FILE: Readonly<Record<TableFile, readonly ColumnSpec[]>> = {
  'trips.csv': TRIP_COLUMNS,
  'soaks.csv': SOAK_COLUMNS,
  'bites.csv': BITE_COLUMNS,
  'spools.csv': SPOOL_COLUMNS,
  'bait-buys.csv': BAIT_BUY_COLUMNS,
  'tally.csv': TALLY_COLUMNS,
  'set-aside.csv': SET_ASIDE_SPECS,
};
