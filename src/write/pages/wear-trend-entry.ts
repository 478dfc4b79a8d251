import type { Estimate } from '../../base/estimate.ts';
import { TIMES } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { levelWords, listWords, sentenceCase } from '../../base/words.ts';
import type { LineWear } from '../../estimate/wear-by-line-type.ts';
import type { WearOutcome } from '../../estimate/wear-trend.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { byFights, figureColumn } from './wear-figures.ts';

const CSV = 'wear-trend.csv';

/** What else goes with the age of a line: pulled hooks, and bites that are hooked. */
export function wearTrendEntry(context: ReportContext): EntryWithFiles {
  const { wear, lines } = context.respool();
  const id = 'wear-trend';
  const question = 'Does old line hook fewer fish, or pull more hooks?';
  const rows = byFights(lines).map(({ line }) => line);
  const [answer = '', ...others] = rows.map(trendSentence);
  if (rows.length === 0) {
    return { entry: { id, question, answer: wear.refused ?? 'Nothing to tell.' }, files: [] };
  }
  const table = trendTable(context, rows);
  return {
    entry: {
      id,
      question,
      answer,
      asides: others,
      table: { view: tableView(table), csv: CSV },
      how: {
        text: 'A logistic line of each on the fights a line has been through, errors by trip. 1 is no trend.',
        anchor: 'wear',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

const MORE: Readonly<Record<WearOutcome, string>> = {
  breaks: 'breaks more often',
  pulled: 'pulls more hooks',
  fights: 'hooks more of its bites',
};
const LESS: Readonly<Record<WearOutcome, string>> = {
  breaks: 'breaks less often',
  pulled: 'pulls fewer hooks',
  fights: 'hooks fewer of its bites',
};

/** `On mono, older line breaks more often; whether it … is too close to call.` */
function trendSentence({ lineType, trends }: LineWear): string {
  const side = (figure: Estimate): 'more' | 'less' | null => {
    if (figure.kind === 'not-estimable') return null;
    return figure.lower > 1 ? 'more' : figure.upper < 1 ? 'less' : null;
  };
  const outcomes = ['fights', 'pulled', 'breaks'] as const;
  const clear = outcomes.flatMap((outcome) => {
    const found = side(trends[outcome]);
    return found === null ? [] : [found === 'more' ? MORE[outcome] : LESS[outcome]];
  });
  const where = sentenceCase(levelWords(lineType));
  if (clear.length === 0) return `${where}: too close to call; nothing clearly goes with its age.`;
  return `${where}: older line ${listWords(clear)}${clear.length < 3 ? '; the rest is too close to call' : ''}.`;
}

/** Odds ratios for ten fights more. */
function trendTable(context: ReportContext, rows: readonly LineWear[]): DataTable<LineWear> {
  const trend = (head: string, outcome: WearOutcome, name: string) =>
    figureColumn(head, { of: ({ trends }: LineWear) => trends[outcome], name, style: TIMES });
  return {
    id: 'wear-trend-table',
    caption: `By what the odds are multiplied on line ten fights older. In brackets: the ${intervalWords(context)}.`,
    columns: [
      {
        head: 'line',
        kind: 'text',
        cell: ({ lineType }) => levelWords(lineType),
        csv: [{ head: 'line_type', value: ({ lineType }) => lineType }],
      },
      {
        head: 'fights',
        kind: 'number',
        cell: ({ fights }) => formatCount(fights),
        csv: [{ head: 'fights', value: ({ fights }) => fights }],
      },
      trend('a bite is hooked', 'fights', 'odds_ratio_hooked'),
      trend('a hook pulls', 'pulled', 'odds_ratio_pulled'),
      trend('the line breaks', 'breaks', 'odds_ratio_breaks'),
    ],
    rows,
  };
}
