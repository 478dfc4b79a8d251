import { FIGURE_FIELDS } from './fields-figures.ts';
import { PERIOD_FIELDS } from './fields-place.ts';
import { type GroupFigures, groupFigures } from './group-figures.ts';
import { type Period, periodText } from './period.ts';
import type { Total } from './protect-totals.ts';
import type { SharedTable } from './table-schema.ts';

/** A row of sums. */
export interface TotalRow extends GroupFigures {
  /** null: over all periods. */
  readonly period: Period | null;
}

/** Totals as rows. */
export function totalRows(totals: readonly Total[]): TotalRow[] {
  return totals.map(({ period, trips }) => ({ period, ...groupFigures(trips) }));
}

/** The table of totals, which also hold what is left out of the rows. */
export function totalsTable(rows: readonly TotalRow[]): SharedTable<TotalRow> {
  return {
    name: 'totals',
    title: 'Totals by period and in all',
    description:
      'Over everything fished, also what is left out of the rows; a total that would give away ' +
      'what is left out is not given.',
    primaryKey: ['total'],
    fields: [
      {
        name: 'total',
        type: 'string',
        description: 'The period, or all.',
        constraints: { required: true, pattern: 'all|[0-9]{4}-(Q[1-4]|[01][0-9])' },
        cell: ({ period }) => (period === null ? 'all' : periodText(period)),
      },
      ...TOTAL_PERIOD_FIELDS,
      ...FIGURE_FIELDS,
    ],
    rows,
  };
}

const TOTAL_PERIOD_FIELDS = PERIOD_FIELDS.map((field) => ({
  ...field,
  description: `${field.description} Empty: over all periods.`,
  constraints: { ...field.constraints, required: false },
  cell: ({ period }: TotalRow) => (period === null ? null : field.cell({ period })),
}));
