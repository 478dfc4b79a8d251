import { figureText, POINTS } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { sentenceCase } from '../../base/words.ts';
import { mainComparison } from '../../decide/headlines.ts';
import { jointTestText } from '../../decide/joint-test-words.ts';
import { MANY_TABLES, withinSentence } from '../../decide/within-sentence.ts';
import { DEFAULT_COVARIATES } from '../../estimate/comparison.ts';
import {
  type DifferenceWithin,
  differencesWithin,
  isThinWithin,
  type WithinLevel,
} from '../../estimate/difference-within.ts';
import type { Contrast } from '../../estimate/level-pairs.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { levelName } from './level-words.ts';
import type { ReportContext } from './report-context.ts';

interface Row extends WithinLevel {
  readonly by: FactorName;
}

/**
 * Whether the answer on the two most fished levels differs by reach or wind; nothing where the
 * verdict does not rest on the adjusted lens, which these tables are made from.
 */
export function withinEntries(
  context: ReportContext,
  { id, factor }: { readonly id: string; readonly factor: FactorName },
): EntryWithFiles[] {
  const { season, filter, level, seed } = context;
  const answered = mainComparison(season, { ...filter, level, seed }, factor);
  if (answered === null || answered.verdict.primary !== 'adjusted') return [];
  const { comparison } = answered;
  const request = { ...filter, level, adjust: DEFAULT_COVARIATES };
  const tables = differencesWithin(season, comparison, request);
  if (tables.length === 0) return [];
  const [a, b] = comparison.levels.map((one) => levelName(factor, one));
  const table = withinTable(id, tables, comparison);
  const csv = `${id}.csv`;
  const entry = {
    id,
    question: `${sentenceCase(a ?? '')} against ${b}: is the answer the same at every reach and in every wind?`,
    answer: tables.map((one) => withinSentence(one, comparison)).join(' '),
    asides: [MANY_TABLES],
    table: { view: tableView(table), csv, open: true },
    how: { text: 'The adjusted lens, with its difference free to vary.', anchor: 'lenses' },
  };
  return [{ entry, files: [{ name: csv, text: tableCsv(table) }] }];
}

function withinTable(
  id: string,
  tables: readonly DifferenceWithin[],
  { factor, levels }: Contrast,
): DataTable<Row> {
  const tests = tables
    .filter(({ refused }) => refused === null)
    .map(({ by, test }) => `Joint test by ${factorWords(by)}: ${jointTestText(test)}`);
  return {
    id: `${id}-table`,
    caption: ['Difference within each level, in points of the share hooked.', ...tests].join(' '),
    columns: [
      {
        head: 'where',
        kind: 'text',
        cell: ({ by, level }) => `${factorWords(by)}: ${levelName(by, level)}`,
        csv: [
          { head: 'by', value: ({ by }) => by },
          { head: 'level', value: ({ level }) => level },
        ],
      },
      {
        head: 'difference',
        kind: 'number',
        cell: (row) =>
          isThinWithin(row) ? 'too little' : figureText(row.difference, POINTS).short,
        csv: (['estimate', 'lower', 'upper'] as const).map((limit) => ({
          head: limit === 'estimate' ? 'difference' : `difference_${limit}`,
          value: ({ difference }: Row) =>
            difference.kind === 'estimated' ? difference[limit] : null,
        })),
      },
      ...(['a', 'b'] as const).map((side, at) => ({
        head: `bites, ${levelName(factor, levels[at] ?? '')}`,
        kind: 'number' as const,
        cell: (row: Row) => formatCount(row[side].bites),
        csv: [{ head: `bites_${side}`, value: (row: Row) => row[side].bites }],
      })),
    ],
    rows: tables.flatMap(({ by, rows }) => rows.map((row) => ({ ...row, by }))),
    thin: isThinWithin,
  };
}
