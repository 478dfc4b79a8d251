import { formatCount } from '../../base/format-number.ts';
import { groupBy } from '../../base/group-by.ts';
import type { Problem } from '../../base/problem.ts';
import { plural, printable } from '../../base/words.ts';
import type { FileAccount, ReadAccount, SetAsideRow } from '../../read/season-log.ts';
import { setAsideTable } from '../../read/set-aside-table.ts';
import { csvText } from '../csv.ts';
import { type Column, type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { shortLevel } from './level-words.ts';
import type { ReportContext } from './report-context.ts';
import { rowsSentence } from './trust-entry.ts';

/** More rows than this are in the CSV file and not on the page. */
const MOST_ROWS = 200;
/** Who was aboard is nobody's business on a page; the file has the row whole. */
const PRIVATE = /angler|client|guest|customer|captain|mate|crew|name|note|comment|remark|memo/i;
/** A row shows no more of its cells than this. */
const MOST_CELLS = 30;
/** Up to so many rows are shown without being asked for. */
const MOST_OPEN = 10;

/** The files, how each was understood, and what became of its rows. */
export function filesEntry({ season }: ReportContext): EntryWithFiles {
  const { files } = season.log.account;
  const table: DataTable<FileAccount> = {
    id: 'files-table',
    caption: 'Every row read is used or set aside. In the order the files are read.',
    columns: [
      text('file', ({ path }) => path),
      count('rows read', 'rows_read', (file) => file.rowsRead),
      count('used', 'rows_used', (file) => file.rowsUsed),
      count('of them repaired', 'rows_repaired', (file) => file.rowsRepaired),
      count('of them with a warning', 'rows_warned', (file) => file.rowsWarned),
      count('set aside', 'rows_set_aside', (file) => file.rowsSetAside),
      text('read as', readAs),
      ...(files.some((file) => unknownColumns(file) !== '')
        ? [text('columns not read', unknownColumns)]
        : []),
    ],
    wordy: true,
    rows: files,
  };
  return {
    entry: {
      id: 'files',
      question: 'Can I trust this?',
      answer: rowsSentence(files),
      ...(files.length === 0
        ? {}
        : {
            table: {
              view: tableView(table),
              csv: 'log-files.csv',
              label: 'File by file',
              open: true,
            },
          }),
      how: { text: 'No row is dropped without a word, and no file is written to.', anchor: 'rows' },
    },
    files: files.length === 0 ? [] : [{ name: 'log-files.csv', text: tableCsv(table) }],
  };
}

function readAs({ encoding, delimiter, decimalMark }: FileAccount): string {
  const signs: Readonly<Record<string, string>> = { '\t': 'tab', ',': 'comma', ';': 'semicolon' };
  const between = delimiter === '' ? '' : `, ${signs[delimiter] ?? delimiter} between cells`;
  const mark = decimalMark === ',' ? ', decimal comma' : '';
  return `${encoding}${between}${mark}`;
}

function unknownColumns({ columns }: FileAccount): string {
  return columns
    .filter(({ column }) => column === null)
    .map(({ header }) => header)
    .join(', ');
}

/** One way in which cells were read, or one thing warned of, with its first place. */
interface Reading {
  readonly kind: Kind;
  /** Cells or rows read so; null where only the first of them were kept. */
  readonly times: number | null;
  readonly first: Problem;
}

interface Kind {
  readonly effect: 'repaired' | 'warned';
  readonly file: string;
  readonly code: string;
  readonly count: number;
  readonly problems: readonly Problem[];
}

/** Different readings of one kind that the page shows; the rest is counted. */
const MOST_READINGS = 12;

/** Each kind of repair and warning, how often, with every different reading and where it is first. */
export function repairsEntry({ season }: ReportContext): EntryWithFiles {
  const kinds = kindsOf(season.account);
  const readings = kinds.flatMap(readingsOf);
  const table = repairsTable(kinds.flatMap((kind) => readingsOf(kind).slice(0, MOST_READINGS)));
  const file = repairsTable(readings);
  const more = readings.length - table.rows.length;
  const left = more === 0 ? '' : ` ${plural(more, 'further reading')} in the file.`;
  return {
    entry: {
      id: 'repairs',
      question: 'What was repaired on the way in?',
      answer: repairsSentence(kinds),
      ...(kinds.length === 0
        ? {}
        : {
            table: {
              view: tableView({ ...table, caption: `${table.caption}${left}` }),
              csv: 'log-repairs.csv',
              label: 'Kind by kind',
              open: true,
            },
          }),
    },
    files: kinds.length === 0 ? [] : [{ name: 'log-repairs.csv', text: tableCsv(file) }],
  };
}

function repairsTable(rows: readonly Reading[]): DataTable<Reading> {
  return {
    id: 'repairs-table',
    caption:
      'Each kind with its different readings. Repairs first, then warnings, the most frequent first.',
    columns: [
      text('what', ({ kind }) => `${kind.effect}: ${kind.code.replaceAll('-', ' ')}`),
      count('times of this kind', 'times_of_this_kind', ({ kind }) => kind.count),
      {
        head: 'times so read',
        kind: 'number',
        cell: ({ times }) => (times === null ? 'many' : formatCount(times)),
        csv: [{ head: 'times_so_read', value: ({ times }) => times }],
      },
      text('how it was read', ({ first }) => first.text),
      text('first at', ({ first }) => placeOf(first)),
      text('what to do', ({ first }) => first.remedy),
    ],
    wordy: true,
    rows,
  };
}

function repairsSentence(kinds: readonly Kind[]): string {
  const times = (effect: Kind['effect']) =>
    kinds.filter((kind) => kind.effect === effect).reduce((sum, kind) => sum + kind.count, 0);
  const [repairs, warnings] = [times('repaired'), times('warned')];
  if (repairs + warnings === 0) return 'Nothing: every cell used was read as it stood.';
  const said = [
    ...(repairs > 0
      ? [`${plural(repairs, 'cell or row was', 'cells or rows were')} repaired`]
      : []),
    ...(warnings > 0 ? [`${plural(warnings, 'was', 'were')} used with a warning`] : []),
  ];
  return `${said.join(', ')}; each kind is listed with its readings.`;
}

/** Kinds of repair and warning with their counts. */
function kindsOf(account: ReadAccount): Kind[] {
  const kinds = account.problemCounts.flatMap(({ file, code, effect, count: times }) => {
    if (effect === 'set-aside') return [];
    const problems = account.problems.filter(
      (one) => one.code === code && one.file === file && one.effect === effect,
    );
    return problems.length === 0 ? [] : [{ effect, file, code, count: times, problems }];
  });
  return kinds.sort(
    (a, b) => Number(a.effect === 'warned') - Number(b.effect === 'warned') || b.count - a.count,
  );
}

/** The different readings of a kind, in the order they were met. */
function readingsOf(kind: Kind): Reading[] {
  const isWhole = kind.problems.length === kind.count;
  return [
    ...groupBy(kind.problems, ({ column, text: said }) => `${column} ${said}`).values(),
  ].flatMap((alike) => {
    const [first] = alike;
    return first === undefined ? [] : [{ kind, times: isWhole ? alike.length : null, first }];
  });
}

/** The rows set aside, each with its reason and what would mend it. */
export function setAsideEntry({ season }: ReportContext): EntryWithFiles {
  const { setAside } = season.log.account;
  const { columns, rows: lines } = setAsideTable(season.log.account);
  const shown = setAside.slice(0, MOST_ROWS);
  const more =
    setAside.length > shown.length
      ? ` The first ${formatCount(shown.length)} of ${formatCount(setAside.length)}; the file has all.`
      : '';
  const table: DataTable<SetAsideRow> = {
    id: 'set-aside-table',
    caption: `In the order they were read.${more}`,
    columns: [
      text('where', placeOf),
      text('why', ({ reason }) => reason),
      text('what would mend it', ({ remedy }) => remedy),
      pageText('the row as it stood, without names and notes', rowAsItStood),
    ],
    wordy: true,
    rows: shown,
  };
  return {
    entry: {
      id: 'set-aside',
      question: 'What was left out?',
      answer: setAsideSentence(setAside.length),
      ...(setAside.length === 0
        ? {}
        : {
            table: {
              view: tableView(table),
              csv: 'set-aside.csv',
              label: 'Row by row',
              open: setAside.length <= MOST_OPEN,
            },
          }),
    },
    files: setAside.length === 0 ? [] : [{ name: 'set-aside.csv', text: csvText(columns, lines) }],
  };
}

function setAsideSentence(rows: number): string {
  if (rows === 0) return 'Nothing: every row that was read is in the figures.';
  const what =
    rows === 1
      ? '1 row was set aside: using it'
      : `${formatCount(rows)} rows were set aside: using them`;
  return `${what} as it stands would be wrong.`;
}

function rowAsItStood({ cells }: SetAsideRow): string {
  return cells
    .filter((cell) => cell.text !== '' && !PRIVATE.test(cell.header))
    .slice(0, MOST_CELLS)
    .map((cell) => `${shortLevel(cell.header)}: ${shortLevel(cell.text)}`)
    .join(' · ');
}

function placeOf(place: {
  readonly file: string;
  readonly line: number | null;
  readonly column: string | null;
}): string {
  const line = place.line === null ? '' : ` line ${formatCount(place.line)}`;
  return `${place.file}${line}${place.column === null ? '' : `, ${place.column}`}`;
}

function text<Row>(head: string, cell: (row: Row) => string): Column<Row> {
  const csvHead = head.replaceAll(' ', '_');
  const value = (row: Row) => printable(cell(row));
  return { head, kind: 'text', cell, csv: [{ head: csvHead, value }] };
}

/** Shown on the page alone. */
function pageText<Row>(head: string, cell: (row: Row) => string): Column<Row> {
  return { head, kind: 'text', cell, csv: [] };
}

function count<Row>(head: string, csvHead: string, value: (row: Row) => number): Column<Row> {
  const cell = (row: Row) => formatCount(value(row));
  return { head, kind: 'number', cell, csv: [{ head: csvHead, value }] };
}
