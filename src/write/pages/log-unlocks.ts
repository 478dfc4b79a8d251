import { formatCount } from '../../base/format-number.ts';
import { listWords, plural, sentenceCase } from '../../base/words.ts';
import { type Unlock, unlocksOf } from '../../decide/unlocks.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { ReportContext } from './report-context.ts';

/** What one more column would buy: the answers the log gives in part or not at all. */
export function unlocksEntry({ season }: ReportContext): EntryWithFiles {
  const unlocks = unlocksOf(season.log);
  const table: DataTable<Unlock> = {
    id: 'unlocks-table',
    caption: 'What is recorded least comes first.',
    columns: [
      {
        head: 'what it would tell',
        kind: 'text',
        cell: ({ answer }) => sentenceCase(answer),
        csv: [{ head: 'answer', value: ({ answer }) => answer }],
      },
      {
        head: 'fill in',
        kind: 'text',
        cell: ({ columns, file }) => `${listWords(columns)} in ${file}`,
        csv: [
          { head: 'file', value: ({ file }) => file },
          { head: 'columns', value: ({ columns }) => columns.join(' ') },
        ],
      },
      {
        head: 'filled in so far',
        kind: 'number',
        cell: ({ recorded, rows }) =>
          rows === 0 ? 'no rows' : `${formatCount(recorded)} of ${formatCount(rows)}`,
        csv: [
          { head: 'recorded', value: ({ recorded }) => recorded },
          { head: 'rows', value: ({ rows }) => rows },
        ],
      },
    ],
    wordy: true,
    rows: unlocks,
  };
  const csv = 'log-unlocks.csv';
  return {
    entry: {
      id: 'unlocks',
      question: 'What would one more column buy?',
      answer: unlocksSentence(unlocks),
      ...(unlocks.length === 0
        ? {}
        : { table: { view: tableView(table), csv, label: 'Answer by answer', open: true } }),
    },
    files: unlocks.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }],
  };
}

function unlocksSentence(unlocks: readonly Unlock[]): string {
  const [first] = unlocks;
  if (first === undefined) return 'Nothing: every column that an answer hangs on is filled in.';
  const start = `Filling in ${listWords(first.columns)} in ${first.file} would tell ${first.answer}`;
  const now =
    first.recorded === 0 ? '' : `, for the ${plural(first.rows - first.recorded, 'row')} without`;
  const rest = unlocks.length - 1;
  const more = rest === 1 ? 'One more answer' : `${formatCount(rest)} more answers`;
  return `${start}${now}.${rest === 0 ? '' : ` ${more} could be had the same way.`}`;
}
