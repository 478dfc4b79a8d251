import { formatDecimal } from '../../base/format-number.ts';
import { levelWords, printable, sentenceCase } from '../../base/words.ts';
import type { LoadLine, LoadList } from '../../decide/load-list.ts';
import { LIVE_BAIT_CAUTION } from '../../decide/load-notes.ts';
import { loadSentence, shortWords } from '../../decide/load-sentence.ts';
import { drawCurves } from '../../draw/draw-curves.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import {
  type CountDistribution,
  countQuantile,
  countTail,
} from '../../stats/count-distribution.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { loadTable } from './load-table.ts';
import type { ReportContext } from './report-context.ts';

const CSV = 'load.csv';
const MOST_CURVES = 3;

/** How many to load for the next trip: the list, the risk of running out by load, and the costs. */
export async function loadEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { list } = context.stock();
  const id = 'load';
  const question = 'How many to load for the next trip?';
  const answer = sentenceCase(loadSentence(list));
  if (list.refused !== null) return { entry: { id, question, answer }, files: [] };
  const table = loadTable(context, list);
  const drawn = list.lines.filter(({ law }) => law !== null);
  return {
    entry: {
      id,
      question,
      answer,
      asides: [
        ...costWords(context, list),
        ...list.notes,
        ...remarks(list.lines),
        LIVE_BAIT_CAUTION,
      ],
      pictures: drawn.length === 0 ? [] : [await riskPicture(drawn)],
      table: { view: tableView(table), csv: CSV, label: 'Bait by bait', open: true },
      how: {
        text: 'The smallest load that is enough with the chance your two costs ask for, from use on every trip.',
        anchor: 'load',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** What the list costs to buy, and what being wrong costs. */
function costWords(context: ReportContext, { total, costs }: LoadList): string[] {
  if (total === null || costs === null) return [];
  const currency = printable(context.season.log.settings.currency ?? '');
  const price =
    total.money === null
      ? []
      : [`bait for about ${formatDecimal(total.money, 0)} ${currency}`.trim()];
  const lost = `baits too few and left over cost about ${formatDecimal(total.expectedCost, 0)} ${currency}`;
  return [`${sentenceCase([...price, `${lost.trim()} a trip`].join('; '))}.`];
}

/** What must be read beside single baits. */
function remarks(lines: readonly LoadLine[]): string[] {
  return lines.flatMap(({ bait, notes }) =>
    notes.map((note) => `${sentenceCase(levelWords(bait))}: ${note}`),
  );
}

/** The chance of running out by load, for the baits used most. */
async function riskPicture(lines: readonly LoadLine[]): Promise<CaptionedPicture> {
  const shown = [...lines]
    .sort((a, b) => (b.meanUsed ?? 0) - (a.meanUsed ?? 0))
    .slice(0, MOST_CURVES);
  const last = Math.max(4, ...shown.map(({ law, most }) => farthest(law, most)));
  const loads = Array.from({ length: Math.min(last, 160) + 1 }, (_, at) =>
    Math.round((at * last) / Math.min(last, 160)),
  );
  const chart = {
    curves: shown.map(({ bait, law }) => ({
      name: printable(levelWords(bait)),
      points: loads.map((x) => {
        const y = law === null ? 0 : 100 * countTail(law, x);
        return { x, y, lower: y, upper: y };
      }),
    })),
    shape: 'steps' as const,
    xTitle: 'baits loaded',
    yTitle: 'trips on which it runs out, of 100',
    xSpan: [0, last] as const,
    ySpan: [0, 100] as const,
    level: null,
    mark: null,
  };
  const described = shown.map(
    ({ bait, load, best }) =>
      `${levelWords(bait)} runs out ${shortWords((load ?? best)?.shortProbability ?? 0)} trips at its load`,
  );
  const words = {
    id: 'load-picture',
    title: 'Risk of running out, by load',
    description: `${described.join('; ')}.`,
  };
  const left =
    lines.length > shown.length ? ' The baits used most; the others are in the table.' : '';
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: `Line: the chance of running out by the law of use, with what the log leaves open about it.${left}`,
  };
}

/** Where a curve may end: beyond it the risk hardly changes. */
function farthest(law: CountDistribution | null, most: number): number {
  return law === null ? 0 : Math.min(most, countQuantile(law, 0.98));
}
