import { figureText, POINTS } from '../../base/format-figure.ts';
import { sentenceCase } from '../../base/words.ts';
import { answerTogether } from '../../decide/answer-together.ts';
import { jointTestText, pText } from '../../decide/joint-test-words.ts';
import { togetherWords } from '../../decide/together-sentence.ts';
import type { JudgedPair, TogetherVerdict } from '../../decide/together-verdict.ts';
import { DEFAULT_COVARIATES } from '../../estimate/comparison.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { levelName } from './level-words.ts';
import type { ReportContext } from './report-context.ts';

/** All levels of a factor judged together, where the log has more than two; else nothing. */
export function togetherEntries(
  context: ReportContext,
  { id, factor }: { readonly id: string; readonly factor: FactorName },
): EntryWithFiles[] {
  const { season, filter, level } = context;
  const levels = context
    .rates([factor], ['hookup_rate'])
    .filter((row) => row.by[factor] !== NOT_RECORDED && row.bites > 0)
    .map((row) => row.by[factor] ?? '');
  if (levels.length < 3) return [];
  const parts = { ...filter, level, adjust: DEFAULT_COVARIATES };
  const measure = 'hookup_rate';
  const answered = answerTogether(season, { ...parts, factor, levels, measure });
  const { word, pairs } = answered;
  const { answer, basis } = togetherWords(answered);
  const verdict = word === null ? '' : `${sentenceCase(word)}. `;
  const table = pairTable(id, answered);
  const csv = `${id}.csv`;
  const noun = factorWords(factor);
  const entry = {
    id,
    question: `${sentenceCase(noun)} by ${noun}: do any differ?`,
    answer: verdict + sentenceCase(answer),
    asides: basis === '' ? [] : [basis],
    ...(pairs.length === 0 ? {} : { table: { view: tableView(table), csv } }),
    how: {
      text: 'One adjusted model of all of them; every pair, with allowance for looking at all.',
      anchor: 'together',
    },
  };
  return [{ entry, files: pairs.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }] }];
}

function pairTable(id: string, { together, pairs }: TogetherVerdict): DataTable<JudgedPair> {
  const name = (level: string) => levelName(together.factor, level);
  const limits = (['estimate', 'lower', 'upper'] as const).map((limit) => ({
    head: limit === 'estimate' ? 'difference' : `difference_${limit}`,
    value: ({ pair: { difference } }: JudgedPair) =>
      difference.kind === 'estimated' ? difference[limit] : null,
  }));
  const held = (['lower', 'upper'] as const).map((limit) => ({
    head: `together_${limit}`,
    value: ({ pair }: JudgedPair) =>
      pair.together.kind === 'estimated' ? pair.together[limit] : null,
  }));
  const chance = (head: string, key: 'p' | 'pHolm', csv: string) => ({
    head,
    kind: 'number' as const,
    cell: ({ pair }: JudgedPair) => pText(pair[key]),
    csv: [{ head: csv, value: ({ pair }: JudgedPair) => pair[key] }],
  });
  return {
    id: `${id}-table`,
    caption:
      'Every pair, the first less the second. All hold together: Bonferroni limits. p, Holm: with ' +
      `allowance for every pair. Joint test that all are alike: ${jointTestText(together.test)}`,
    columns: [
      {
        head: 'pair',
        kind: 'text',
        cell: ({ pair }) => pair.levels.map(name).join(' less '),
        csv: [
          { head: 'a', value: ({ pair }) => pair.levels[0] },
          { head: 'b', value: ({ pair }) => pair.levels[1] },
        ],
      },
      {
        head: 'difference',
        kind: 'number',
        cell: ({ pair }) => figureText(pair.difference, POINTS).short,
        csv: limits,
      },
      {
        head: 'all hold together',
        kind: 'number',
        cell: ({ pair }) => figureText(pair.together, POINTS).interval ?? '',
        csv: held,
      },
      chance('p', 'p', 'p'),
      chance('p, Holm', 'pHolm', 'p_holm'),
      {
        head: 'verdict',
        kind: 'text',
        cell: ({ word }) => word,
        csv: [{ head: 'verdict', value: ({ word }) => word }],
      },
    ],
    rows: pairs,
  };
}
