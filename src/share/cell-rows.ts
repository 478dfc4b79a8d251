import type { GridCell } from './cwp-grid.ts';
import { count, FIGURE_FIELDS } from './fields-figures.ts';
import { PERIOD_FIELDS, PLACE_FIELDS, STRATUM_KEY } from './fields-place.ts';
import type { GearCode } from './gear-codes.ts';
import { catchBySpecies, type GroupFigures, groupFigures } from './group-figures.ts';
import type { Stratum } from './merge-cells.ts';
import { noisyCounts, type RowCounts } from './noisy-counts.ts';
import type { Period } from './period.ts';
import type { ShareChoices } from './share-options.ts';
import { type Fates, NO_FATES } from './share-trip.ts';
import type { SharedTable } from './table-schema.ts';

/** A row of a package: one period, one cell, one gear. */
export interface CellRow extends GroupFigures {
  readonly period: Period;
  readonly cell: GridCell;
  readonly gear: GearCode;
  /** Every species of the package, those with no fish in this row as well. */
  readonly catches: ReadonlyMap<string, Fates>;
}

/** Strata as rows, and the species they hold, in order of code. */
export function cellRows(
  strata: readonly Stratum[],
  { gear, noise }: Pick<ShareChoices, 'gear' | 'noise'>,
  key: Buffer,
): { readonly rows: readonly CellRow[]; readonly species: readonly string[] } {
  const trips = strata.flatMap((stratum) => stratum.trips);
  const species = [...catchBySpecies(trips).keys()].sort();
  const rows = strata.map(({ period, cell, trips: own }): CellRow => {
    const sums = catchBySpecies(own);
    const catches = new Map(species.map((code) => [code, sums.get(code) ?? NO_FATES]));
    const exact = { period, cell, gear, ...groupFigures(own), catches };
    return noise === null ? exact : withCounts(exact, noisyCounts(own, noise, { key, species }));
  });
  return { rows, species };
}

/** The row with other counts, and the sums over them. */
function withCounts(row: CellRow, { missed, catches }: RowCounts): CellRow {
  const fates = [...catches.values()];
  const sum = (fate: keyof Fates) => fates.reduce((total, one) => total + one[fate], 0);
  const own = { kept: sum('kept'), released: sum('released'), lost: sum('lost') };
  return { ...row, ...own, missed, catches, bites: missed + own.kept + own.released + own.lost };
}

/** The table of effort: one row a period, cell and gear. */
export function effortTable(rows: readonly CellRow[]): SharedTable<CellRow> {
  return {
    name: 'effort',
    title: 'Effort by period, grid cell and gear',
    description: 'Trips, hours and what came of them; a row without a fish is a row of zeros.',
    primaryKey: STRATUM_KEY,
    fields: [...PERIOD_FIELDS, ...PLACE_FIELDS, ...FIGURE_FIELDS],
    rows,
  };
}

/** Fish of one species in one row. */
interface CatchRow extends CellRow {
  readonly code: string;
  readonly fates: Fates;
}

/** The table of fish: every species of the package in every row, zeros too. */
export function catchTable(rows: readonly CellRow[]): SharedTable<CatchRow> {
  return {
    name: 'catch',
    title: 'Hooked fish by period, grid cell, gear, species and fate',
    description: 'Every species of the package in every row of the effort table, zeros included.',
    primaryKey: [...STRATUM_KEY, 'species'],
    refersTo: { table: 'effort', fields: STRATUM_KEY },
    fields: [...PERIOD_FIELDS, ...PLACE_FIELDS, ...catchFields<CatchRow>()],
    rows: rows.flatMap((row) => [...row.catches].map(([code, fates]) => ({ ...row, code, fates }))),
  };
}

/** Columns of one species' fish. */
export function catchFields<Row extends { readonly code: string; readonly fates: Fates }>() {
  return [
    {
      name: 'species',
      type: 'string' as const,
      description: 'FAO ASFIS 3-alpha code.',
      constraints: { required: true, pattern: '[A-Z]{3}' },
      cell: (row: Row) => row.code,
    },
    count<Row>('kept', 'Brought aboard and kept.', ({ fates }) => fates.kept),
    count<Row>(
      'released',
      'Brought to the leader or boat and let go.',
      ({ fates }) => fates.released,
    ),
    count<Row>('lost', 'Hooked, came off or broke off.', ({ fates }) => fates.lost),
  ];
}
