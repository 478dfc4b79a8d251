import { figureText } from '../../base/format-figure.ts';
import { formatCount, formatHours } from '../../base/format-number.ts';
import { levelWords, printable } from '../../base/words.ts';
import type { LineAdvice } from '../../decide/respool-advice.ts';
import type { DotChart, DotMark } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn, isThinWear, PER_100_FIGHTS, PLAIN } from './wear-figures.ts';

const CSV = 'line-cost.csv';

/** What each line type costs a season, as reels were filled and at the best age. */
export async function wearCostEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { wear, lines } = context.respool();
  const id = 'line-cost';
  const question = 'What does each line cost a season?';
  if (lines.length === 0) {
    return { entry: { id, question, answer: wear.refused ?? 'Nothing to tell.' }, files: [] };
  }
  const table = costTable(context, lines);
  const priced = lines.filter(({ cost }) => cost.actual !== null);
  return {
    entry: {
      id,
      question,
      answer: costSentence(context, lines),
      asides: priced.length === 0 ? [] : [AS_LOGGED, WHAT_IS_LEFT_OUT],
      pictures: priced.length === 0 ? [] : [await costPicture(context, priced)],
      table: { view: tableView(table), csv: CSV },
      how: {
        text: 'Fillings and lost fish at their prices, told for all fights of the log on this line alone.',
        anchor: 'respool',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

const AS_LOGGED = 'As logged: where, when and with what each line was fished is not held equal.';
const WHAT_IS_LEFT_OUT =
  'Bites that one line hooks and another would not are not in this cost: see Line and hook. A filling ' +
  'still on the reel at the end counts whole. Time spent filling reels is in it only if the price of a ' +
  'filling has it.';

/** The cost of a season by line type; without prices, what was filled and lost. */
function costSentence(context: ReportContext, lines: readonly LineAdvice[]): string {
  const currency = printable(context.season.log.settings.currency ?? '');
  const money = { kind: 'number', unit: currency } as const;
  const [first] = lines;
  const priced = lines.filter(({ cost }) => cost.actual !== null);
  if (first === undefined || priced.length === 0) {
    const counted = lines.map(
      ({ line }) =>
        `${levelWords(line.lineType)} ${formatCount(line.spools.length)} fillings and ${formatCount(line.breaks)} fish`,
    );
    return `In filled reels and fish lost to broken line: ${counted.join('; ')}. ${first?.cost.reason ?? ''}`.trim();
  }
  const told = priced.flatMap(({ line, cost }) => {
    if (cost.actual === null) return [];
    const best =
      cost.best === null ? '' : `, at the best age ${figureText(cost.best, money).short}`;
    return [
      `${levelWords(line.lineType)} ${figureText(cost.actual, money).short} as filled${best}`,
    ];
  });
  return `A season of ${formatCount(first.cost.fights)} fights costs, on one line alone: ${told.join('; ')}.`;
}

/** One row a line type and way of filling, all told for the same fights. */
async function costPicture(
  context: ReportContext,
  lines: readonly LineAdvice[],
): Promise<CaptionedPicture> {
  const currency = printable(context.season.log.settings.currency ?? 'money');
  const words = {
    id: 'line-cost-picture',
    title: 'Cost of a season, by line type',
    description: costSentence(context, lines),
  };
  const mark = (figure: DotMark['figure'], { line }: LineAdvice): DotMark => ({
    figure,
    n: `${formatCount(line.fights)} fights`,
    thin: isThinWear(line),
  });
  const chart: DotChart = {
    rows: lines.flatMap((line) => {
      const { actual, best } = line.cost;
      const name = printable(levelWords(line.line.lineType));
      return [
        ...(actual === null ? [] : [{ label: `${name}, as filled`, marks: [mark(actual, line)] }]),
        ...(best === null ? [] : [{ label: `${name}, at best age`, marks: [mark(best, line)] }]),
      ];
    }),
    series: [],
    style: PLAIN,
    axisTitle: `${currency} a season: fillings and lost fish`,
    reference: null,
    shaded: null,
    span: [0, 0],
  };
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: estimate. Bar: ${intervalWords(context)}.`,
  };
}

/** What the costs are made of. */
function costTable(context: ReportContext, lines: readonly LineAdvice[]): DataTable<LineAdvice> {
  const currency = printable(context.season.log.settings.currency ?? 'money');
  const count = (head: string, name: string, of: (row: LineAdvice) => number) => ({
    head,
    kind: 'number' as const,
    cell: (row: LineAdvice) => formatCount(of(row)),
    csv: [{ head: name, value: of }],
  });
  return {
    id: 'line-cost-table',
    caption: `By line type. In brackets: the ${intervalWords(context)}. Cost: for all fights of the log.`,
    columns: [
      {
        head: 'line',
        kind: 'text',
        cell: ({ line }) => levelWords(line.lineType),
        csv: [{ head: 'line_type', value: ({ line }) => line.lineType }],
      },
      count('fillings', 'fillings', ({ line }) => line.spools.length),
      count('fights', 'fights', ({ line }) => line.fights),
      count('breaks', 'breaks', ({ line }) => line.breaks),
      {
        head: 'fights a filling',
        kind: 'number',
        cell: ({ cost }) => formatHours(cost.fightsPerFilling),
        csv: [{ head: 'fights_per_filling', value: ({ cost }) => cost.fightsPerFilling }],
      },
      figureColumn('breaks per 100 fights', {
        of: ({ line }: LineAdvice) => line.breaksPerFight,
        name: 'breaks_per_fight',
        style: PER_100_FIGHTS,
      }),
      figureColumn('beta (above 1: it wears)', {
        of: ({ line }: LineAdvice) => line.law.beta,
        name: 'beta',
        style: PLAIN,
      }),
      figureColumn(`season as filled, ${currency}`, {
        of: ({ cost }: LineAdvice) => cost.actual,
        name: 'season_cost_actual',
        style: PLAIN,
      }),
      figureColumn(`season at best age, ${currency}`, {
        of: ({ cost }: LineAdvice) => cost.best,
        name: 'season_cost_best',
        style: PLAIN,
      }),
    ],
    rows: lines,
  };
}
