import type { Estimate } from '../../base/estimate.ts';
import { figureText } from '../../base/format-figure.ts';
import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { levelWords, plural, printable, sentenceCase } from '../../base/words.ts';
import type { BaitStock } from '../../decide/load-stock.ts';
import type { DotChart } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH, THIN_WORDS } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn, PLAIN } from './wear-figures.ts';

const CSV = 'bait-cost.csv';
const PER_100_BAITS = { kind: 'rate', scale: 100, per: '100 baits' } as const;
const MOST_ROWS = 30;

/** What a fish costs in bait: by bait used, by money, on all that was bought. */
export async function loadCostEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { baits } = context.stock();
  const id = 'bait-cost';
  const question = 'What does a fish cost in bait?';
  const used = baits.filter(({ brings }) => brings.used > 0);
  if (used.length === 0) {
    const answer =
      'What baits were used is not recorded: soaks.csv with bait and baits_used would tell.';
    return { entry: { id, question, answer }, files: [] };
  }
  const table = costTable(context, used);
  const priced = used.filter(({ brings }) => brings.costPerFish?.used.kind === 'estimated');
  return {
    entry: {
      id,
      question,
      answer: costSentence(context, used),
      asides: [AS_LOGGED],
      pictures: priced.length === 0 ? [] : [await costPicture(context, priced)],
      table: { view: tableView(table), csv: CSV },
      how: {
        text: 'Mean price of a bait over fish caught per bait used (put out, or died before).',
        anchor: 'bait',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

const AS_LOGGED =
  'As logged: where, when and for which fish each bait was out is not held equal, and a dear bait may ' +
  'be kept for the fish that pay for it.';

/** Cheapest first among baits that rest on enough. */
function costSentence(context: ReportContext, baits: readonly BaitStock[]): string {
  const currency = printable(context.season.log.settings.currency ?? '');
  const able = baits.filter((bait) => !isThin(bait)).flatMap(withCost);
  const ordered = able.sort((a, b) => a.cost.estimate - b.cost.estimate);
  const [cheapest, dearest] = [ordered[0], ordered.at(-1)];
  if (cheapest === undefined || dearest === undefined) return yieldSentence(baits);
  const money = { kind: 'number', unit: currency } as const;
  const told = (one: (typeof ordered)[number]) =>
    `${levelWords(one.bait)} ${figureText(one.cost, money).short}`;
  if (ordered.length === 1) return `A fish caught costs in bait: ${told(cheapest)}.`;
  return `A fish caught costs least in bait on ${told(cheapest)} and most on ${told(dearest)}.`;
}

function withCost({ bait, brings }: BaitStock) {
  const cost = brings.costPerFish?.used;
  return cost?.kind === 'estimated' ? [{ bait, cost }] : [];
}

/** Without prices: fish per 100 baits, and the column that would give the cost. */
function yieldSentence(baits: readonly BaitStock[]): string {
  const told = baits.map(
    ({ bait, brings }) =>
      `${levelWords(bait)} ${figureText(brings.perBait.caught, PER_100_BAITS).short}`,
  );
  const hint = baits.some(({ brings }) => brings.price !== null)
    ? ''
    : ' For the cost of a fish, add unit_cost in bait-buys.csv.';
  return `${sentenceCase('fish caught per 100 baits used')}: ${told.slice(0, 6).join('; ')}.${hint}`;
}

/** Fewer than 10 bites, or 5 trips that used it. */
function isThin({ brings }: BaitStock): boolean {
  const bites = brings.perHour.bites?.bites ?? 0;
  const trips = brings.use.trips.filter(({ used }) => used > 0).length;
  return bites < ENOUGH.bites || trips < ENOUGH.trips;
}

/** Cheapest first; what rests on too little last. */
async function costPicture(
  context: ReportContext,
  baits: readonly BaitStock[],
): Promise<CaptionedPicture> {
  const currency = printable(context.season.log.settings.currency ?? 'money');
  const costOf = ({ brings }: BaitStock): Estimate | undefined => brings.costPerFish?.used;
  const shown = baits
    .flatMap((bait) => {
      const figure = costOf(bait);
      return figure?.kind === 'estimated' ? [{ bait, figure }] : [];
    })
    .sort(
      (a, b) =>
        Number(isThin(a.bait)) - Number(isThin(b.bait)) || a.figure.estimate - b.figure.estimate,
    )
    .slice(0, MOST_ROWS);
  const chart: DotChart = {
    rows: shown.map(({ bait, figure }) => ({
      label: printable(levelWords(bait.bait)),
      marks: [{ figure, n: plural(bait.brings.used, 'bait'), thin: isThin(bait) }],
    })),
    series: [],
    style: PLAIN,
    axisTitle: `${currency} a fish caught, on baits used`,
    reference: null,
    shaded: null,
    span: [0, 0],
  };
  const described = shown.map(
    ({ bait, figure }) => `${levelWords(bait.bait)}: ${figureText(figure, PLAIN).short}`,
  );
  const words = {
    id: 'bait-cost-picture',
    title: 'Cost of a fish in bait',
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const hollow = shown.some(({ bait }) => isThin(bait)) ? ` ${THIN_WORDS}` : '';
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: as logged. Bar: ${intervalWords(context)}.${hollow}`,
  };
}

/** From baits put out to money a fish. */
function costTable(context: ReportContext, baits: readonly BaitStock[]): DataTable<BaitStock> {
  const currency = printable(context.season.log.settings.currency ?? 'money');
  const count = (name: 'deployed' | 'died' | 'used' | 'bought', head: string) => ({
    head,
    kind: 'number' as const,
    cell: ({ brings }: BaitStock) => formatCount(brings[name]),
    csv: [{ head: name, value: ({ brings }: BaitStock) => brings[name] }],
  });
  const perBait = (counted: 'bites' | 'hooked' | 'caught') =>
    figureColumn(`${counted} per 100 baits`, {
      of: ({ brings }: BaitStock) => brings.perBait[counted],
      name: `${counted}_per_bait`,
      style: PER_100_BAITS,
    });
  return {
    id: 'bait-cost-table',
    caption: `By bait, in the order of the settings. In brackets: the ${intervalWords(context)}. Grey: too little to rank.`,
    columns: [
      {
        head: 'bait',
        kind: 'text',
        cell: ({ bait }) => levelWords(bait),
        csv: [{ head: 'bait', value: ({ bait }) => bait }],
      },
      count('deployed', 'put out'),
      count('died', 'died'),
      count('used', 'used'),
      count('bought', 'bought or caught'),
      perBait('bites'),
      perBait('hooked'),
      perBait('caught'),
      {
        head: `mean price, ${currency}`,
        kind: 'number',
        cell: ({ brings }) =>
          brings.price === null ? 'not known' : formatDecimal(brings.price.mean, 2),
        csv: [{ head: 'price', value: ({ brings }) => brings.price?.mean ?? null }],
      },
      figureColumn(`${currency} a fish, on baits used`, {
        of: ({ brings }: BaitStock) => brings.costPerFish?.used ?? null,
        name: 'cost_per_caught',
        style: PLAIN,
      }),
      figureColumn(`${currency} a fish, on baits bought`, {
        of: ({ brings }: BaitStock) => brings.costPerFish?.bought ?? null,
        name: 'cost_per_caught_on_bought',
        style: PLAIN,
      }),
    ],
    rows: baits,
    thin: isThin,
  };
}
