import type { LogFile } from '../../base/files.ts';
import { formatCount } from '../../base/format-number.ts';
import { formatMonth } from '../../base/format-time.ts';
import { groupBy } from '../../base/group-by.ts';
import { listWords } from '../../base/words.ts';
import { COLUMNS_OF_FILE } from '../../read/columns-of-file.ts';
import type { SeasonLog } from '../../read/season-log.ts';
import { type CsvValue, csvText } from '../csv.ts';
import { ShadedTable } from '../shaded-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { ReportContext } from './report-context.ts';

/** One column of one file: rows and recorded cells, by month. */
interface Recorded {
  readonly file: LogFile;
  readonly column: string;
  /** In the order of the months asked for. */
  readonly months: readonly { readonly rows: number; readonly cells: number }[];
}

const FROM_ELSEWHERE =
  'An empty cell may be known from elsewhere: a bite takes bait and line from its soak, a soak its ' +
  'line from the spool on its rod.';

/** How often each column was filled in, month by month. */
export function recordedEntry({ season }: ReportContext): EntryWithFiles {
  const { log } = season;
  const monthOfTrip = new Map(season.trips.map((trip) => [trip.trip_id, trip.month]));
  const months = [...new Set(monthOfTrip.values())].sort();
  const recorded = recordedColumns(log, { months, monthOfTrip });
  const files = [...groupBy(recorded, ({ file }) => file)];
  const view = (
    <>
      {files.map(([file, columns]) => (
        <ShadedTable
          id={`recorded-${file.replace(/\W/g, '-')}`}
          caption={`${file}: cells filled in, % of rows`}
          corner="column"
          heads={months.map(formatMonth)}
          rows={columns.map(({ column, months: cells }) => ({
            name: column,
            cells: cells.map((cell) => shadedCell(cell)),
          }))}
          key={file}
        />
      ))}
    </>
  );
  const csv = 'log-recorded.csv';
  const hasRows = months.length > 0 && files.length > 0;
  return {
    entry: {
      id: 'recorded',
      question: 'What is filled in, and what is not?',
      answer: recordedSentence(recorded),
      asides: hasRows ? [FROM_ELSEWHERE] : [],
      ...(hasRows ? { table: { view, csv, label: 'Column by column, month by month' } } : {}),
    },
    files: hasRows ? [{ name: csv, text: recordedCsv(recorded, months) }] : [],
  };
}

function recordedSentence(recorded: readonly Recorded[]): string {
  if (recorded.length === 0) return 'There is nothing to fill in yet.';
  const empty = recorded.filter(({ months }) => months.every(({ cells }) => cells === 0));
  const full = recorded.filter(({ months }) => months.every(({ rows, cells }) => rows === cells));
  const start = `Of ${formatCount(recorded.length)} columns that a log may fill, ${formatCount(full.length)} are filled in every row`;
  if (empty.length === 0) return `${start} and none is left empty throughout.`;
  const names = empty.map(({ file, column }) => `${column} (${file})`);
  return `${start}; never filled: ${listWords(names, 5)}.`;
}

function shadedCell({ rows, cells }: { readonly rows: number; readonly cells: number }) {
  if (rows === 0) return { text: '', share: 0 };
  const share = cells / rows;
  // Rounded down above nothing and below all, so that 100 means all and 0 means none.
  const percent =
    share === 1 ? 100 : share === 0 ? 0 : Math.min(99, Math.max(1, Math.round(100 * share)));
  return { text: formatCount(percent), share };
}

type RowOfTrip = { readonly trip_id: string | null } & object;

interface Months {
  readonly months: readonly string[];
  readonly monthOfTrip: ReadonlyMap<string, string>;
}

/** Columns of the files that hang on trips; purchases have dates of their own. */
function recordedColumns(log: SeasonLog, context: Months): Recorded[] {
  return [
    ...columnsOf('trips.csv', log.trips, context),
    ...columnsOf('soaks.csv', log.soaks ?? [], context),
    ...columnsOf('bites.csv', log.bites, context),
  ];
}

function columnsOf(
  file: LogFile,
  rows: readonly RowOfTrip[],
  { months, monthOfTrip }: Months,
): Recorded[] {
  if (rows.length === 0) return [];
  const byMonth = groupBy(rows, (row) => monthOfTrip.get(row.trip_id ?? '') ?? '');
  return COLUMNS_OF_FILE[file]
    .filter(({ name, required }) => required !== true && name in (rows[0] ?? {}))
    .map(({ name }) => ({
      file,
      column: name,
      months: months.map((month) => {
        const ofMonth = byMonth.get(month) ?? [];
        const cells = ofMonth.filter((row) => cellOf(row, name) !== null).length;
        return { rows: ofMonth.length, cells };
      }),
    }));
}

function cellOf(row: object, name: string): unknown {
  return (row as Readonly<Record<string, unknown>>)[name] ?? null;
}

function recordedCsv(recorded: readonly Recorded[], months: readonly string[]): string {
  const lines = recorded.flatMap(({ file, column, months: cells }) =>
    months.map((month, at): CsvValue[] => [
      file,
      column,
      month,
      cells[at]?.rows ?? 0,
      cells[at]?.cells ?? 0,
    ]),
  );
  return csvText(['file', 'column', 'month', 'rows', 'cells_filled'], lines);
}
