import type { Estimate } from '../base/estimate.ts';
import { figureText } from '../base/format-figure.ts';
import { formatCount, formatDecimal } from '../base/format-number.ts';
import { sentenceCase } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { isProportion } from '../estimate/proportion.ts';
import type { CsvValue } from '../write/csv.ts';
import type { Column, DataTable } from '../write/data-table.tsx';
import type { PooledMeasure } from './pool-rates.ts';
import { ANYTHING, tellsNothing } from './pool-sentence.ts';
import type { SharedRate } from './shared-rates.ts';

interface PoolRow {
  readonly label: string;
  readonly kind: 'package' | 'random' | 'fixed' | 'without';
  readonly figure: Estimate;
  readonly rate: SharedRate | null;
  readonly weightPercent: number | null;
}

/** Packages, what they say together, and what they say without each in turn. */
export function poolTable(
  pooled: PooledMeasure,
  { id, level }: { readonly id: string; readonly level: number },
): DataTable<PoolRow> {
  const { measure, studies, random, fixed, leaveOneOut } = pooled;
  const { style, unit, name } = MEASURE_WORDS[measure];
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  const none = { rate: null, weightPercent: null };
  const rows: PoolRow[] = [
    ...studies.map((study) => ({ kind: 'package' as const, ...study })),
    ...(studies.length < 2
      ? []
      : [
          { label: 'together, boats may differ', kind: 'random' as const, figure: random, ...none },
          { label: 'together, as if all alike', kind: 'fixed' as const, figure: fixed, ...none },
        ]),
    ...leaveOneOut.map(({ without, pooled: figure }) => {
      return { label: `without ${without}`, kind: 'without' as const, figure, ...none };
    }),
  ];
  const columns: readonly Column<PoolRow>[] = [
    {
      head: 'package',
      kind: 'text',
      cell: (row) => row.label,
      csv: [
        { head: 'package', value: (row) => row.label },
        { head: 'row', value: (row) => row.kind },
      ],
    },
    {
      head: `figure${per}`,
      kind: 'number',
      cell: ({ figure, kind }) =>
        kind !== 'package' && tellsNothing(figure, measure)
          ? ANYTHING
          : figureText(figure, style).short,
      csv: (['estimate', 'lower', 'upper'] as const).map((end) => ({
        head: end,
        value: (row: PoolRow) => endOf(row.figure, end),
      })),
    },
    countColumn('counted', (rate) => rate.numerator),
    countColumn(isProportion(measure) ? unit : 'line-hours', (rate) => rate.denominator),
    countColumn('trips', (rate) => rate.trips),
    {
      head: 'design effect',
      kind: 'number',
      cell: ({ rate }) => (rate?.designEffect == null ? '' : formatDecimal(rate.designEffect, 1)),
      csv: [{ head: 'design_effect', value: ({ rate }) => rate?.designEffect ?? null }],
    },
    {
      head: 'weight, %',
      kind: 'number',
      cell: (row) => (row.weightPercent === null ? '' : formatDecimal(row.weightPercent, 0)),
      csv: [{ head: 'weight_percent', value: (row) => row.weightPercent }],
    },
  ];
  const interval = `${formatDecimal(100 * level, 0)} % interval`;
  return {
    id,
    caption: `${sentenceCase(name)}; in brackets the ${interval}. Weight: where boats may differ.`,
    columns,
    rows,
  };
}

function countColumn(head: string, of: (rate: SharedRate) => number): Column<PoolRow> {
  return {
    head,
    kind: 'number',
    cell: ({ rate }) => (rate === null ? '' : formatCount(of(rate))),
    csv: [{ head: head.replaceAll(/[ -]/g, '_'), value: ({ rate }) => (rate ? of(rate) : null) }],
  };
}

function endOf(figure: Estimate, end: 'estimate' | 'lower' | 'upper'): CsvValue {
  return figure.kind === 'estimated' ? figure[end] : null;
}
