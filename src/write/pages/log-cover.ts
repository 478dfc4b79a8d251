import { formatCount, formatHours } from '../../base/format-number.ts';
import { formatMonth } from '../../base/format-time.ts';
import { plural } from '../../base/words.ts';
import { talliedGroups } from '../../estimate/rates.ts';
import type { TallyRow } from '../../tally/tallies.ts';
import { type Column, type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { ReportContext } from './report-context.ts';

/** Effort of one month. */
interface MonthCover {
  readonly month: string;
  readonly trips: number;
  readonly tripsWithEffort: number;
  readonly tripsAssumed: number;
  readonly lineHours: number;
  readonly bites: number;
  readonly covered: number;
}

/** How much of the fishing has line-hours: the share of bites a rate per line-hour can count. */
export function coverEntry({ season, filter }: ReportContext): EntryWithFiles {
  const months = talliedGroups(season, { ...filter, by: ['month'] }).map(({ by, rows }) =>
    coverOf(by.month ?? '', rows),
  );
  const table: DataTable<MonthCover> = {
    id: 'cover-table',
    caption:
      'By month. Assumed effort: hours fished times lines fished, where no soaks are logged.',
    columns: [
      {
        head: 'month',
        kind: 'text',
        cell: ({ month }) => formatMonth(month),
        csv: [{ head: 'month', value: ({ month }) => month }],
      },
      count('trips', 'trips', ({ trips }) => trips),
      count('trips with line-hours', 'trips_with_line_hours', (row) => row.tripsWithEffort),
      count('of them assumed', 'trips_assumed', (row) => row.tripsAssumed),
      {
        head: 'line-hours',
        kind: 'number',
        cell: (row) => (row.tripsWithEffort === 0 ? 'not recorded' : formatHours(row.lineHours)),
        csv: [
          {
            head: 'line_hours',
            value: (row) => (row.tripsWithEffort === 0 ? null : row.lineHours),
          },
        ],
      },
      count('bites', 'bites', ({ bites }) => bites),
      count('bites that met line-hours', 'bites_on_line_hours', ({ covered }) => covered),
    ],
    rows: months,
  };
  const csv = 'log-effort.csv';
  return {
    entry: {
      id: 'cover',
      question: 'How much of the fishing has hours behind it?',
      answer: coverSentence(months),
      ...(months.length === 0
        ? {}
        : { table: { view: tableView(table), csv, label: 'Month by month' } }),
      how: {
        text: 'A bite counts per line-hour only where its own line-hours do.',
        anchor: 'hours',
      },
    },
    files: months.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }],
  };
}

function coverOf(month: string, rows: readonly TallyRow[]): MonthCover {
  const sum = (name: 'line_hours' | 'bites' | 'bites_on_effort') =>
    rows.reduce((total, row) => total + row[name], 0);
  return {
    month,
    trips: rows.length,
    tripsWithEffort: rows.filter((row) => row.effort_rows > 0).length,
    tripsAssumed: rows.filter((row) => row.assumed_rows > 0).length,
    lineHours: sum('line_hours'),
    bites: sum('bites'),
    covered: sum('bites_on_effort'),
  };
}

function coverSentence(months: readonly MonthCover[]): string {
  const sum = (name: 'bites' | 'covered' | 'lineHours' | 'tripsAssumed' | 'tripsWithEffort') =>
    months.reduce((total, month) => total + month[name], 0);
  const [bites, covered] = [sum('bites'), sum('covered')];
  if (sum('tripsWithEffort') === 0) {
    return 'None: no line-hours are recorded, so there is no figure per line-hour.';
  }
  const assumed = sum('tripsAssumed');
  const how = assumed === 0 ? '' : ` On ${plural(assumed, 'trip')} the hours are assumed.`;
  const hours = `${formatHours(sum('lineHours'))} line-hours`;
  if (bites === 0) return `There are ${hours} and no bite.${how}`;
  if (covered === bites)
    return `All ${plural(bites, 'bite')} met line-hours; there are ${hours}.${how}`;
  return `${formatCount(covered)} of ${plural(bites, 'bite')} met line-hours; there are ${hours}.${how}`;
}

function count(
  head: string,
  csvHead: string,
  value: (row: MonthCover) => number,
): Column<MonthCover> {
  const cell = (row: MonthCover) => formatCount(value(row));
  return { head, kind: 'number', cell, csv: [{ head: csvHead, value }] };
}
