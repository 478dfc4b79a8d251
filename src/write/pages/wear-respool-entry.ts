import { formatDecimal } from '../../base/format-number.ts';
import { levelWords, printable, sentenceCase } from '../../base/words.ts';
import type { LineAdvice } from '../../decide/respool-advice.ts';
import type { AdvisedAge } from '../../decide/respool-age.ts';
import type { RespoolAtPrice } from '../../decide/respool-sensitivity.ts';
import { RESPOOL_HABIT } from '../../decide/respool-sentence.ts';
import { type CurveChart, drawCurves } from '../../draw/draw-curves.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { fromWearLaw, type WearLaw } from '../../estimate/wear-power-law.ts';
import { minimalRepairCostRate } from '../../stats/replacement-minimal-repair.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { byFights, figureColumn, PLAIN } from './wear-figures.ts';

const CSV = 'respool-at-prices.csv';
const STEPS = 48;

/** When to respool: the age of least cost, how flat the cost is around it, and at other prices. */
export async function wearRespoolEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { wear, lines } = context.respool();
  const id = 'respool';
  const question = 'When to respool?';
  if (lines.length === 0) {
    return { entry: { id, question, answer: wear.refused ?? 'Nothing to tell.' }, files: [] };
  }
  const rows = lines.flatMap(({ line, atPrices }) =>
    atPrices.map((row): PriceRow => ({ ...row, lineType: line.lineType })),
  );
  const table = priceTable(context, rows);
  const [first, ...others] = byFights(lines);
  const pictures = await Promise.all(
    lines.flatMap((line, at) => {
      if (line.advice.kind === 'advised')
        return [costPicture(context, line, { advice: line.advice, at })];
      const { law } = line.line;
      return line.advice.isWear && law.kind === 'fitted' ? [wearPicture(line, law, at)] : [];
    }),
  );
  return {
    entry: {
      id,
      question,
      answer: first?.words.answer ?? '',
      asides: [
        ...(first?.words.more ?? []),
        ...others.map(({ sentence }) => sentence),
        RESPOOL_HABIT,
      ],
      pictures,
      ...(rows.length === 0
        ? {}
        : {
            table: {
              view: tableView(table),
              csv: CSV,
              label: 'If a lost fish cost something else',
            },
          }),
      how: {
        text: 'The age at which filling and lost fish together cost least a fight, with line retied after a break.',
        anchor: 'respool',
      },
    },
    files: rows.length === 0 ? [] : [{ name: CSV, text: tableCsv(table) }],
  };
}

/** Cost of one rod a trip, by the age at which its line is renewed, with its band. */
async function costPicture(
  context: ReportContext,
  { line }: LineAdvice,
  { advice, at }: { readonly advice: AdvisedAge; readonly at: number },
): Promise<CaptionedPicture> {
  const { law, prices, ageFights } = advice;
  const name = printable(levelWords(line.lineType));
  const pace = line.fightsPerTrip ?? 1;
  const per = line.fightsPerTrip === null ? 'fight' : 'trip';
  const currency = printable(context.season.log.settings.currency ?? 'money');
  const cost = ({ shape, theta }: { shape: number; theta: number }, age: number) =>
    pace *
    minimalRepairCostRate(
      { shape, theta, spoolCost: prices.spoolCost, breakCost: prices.lostFish },
      age,
    );
  const [from, to] = [ageFights / 3, 2.5 * ageFights];
  const points = Array.from({ length: STEPS }, (_, i) => {
    const x = from + ((to - from) * i) / (STEPS - 1);
    const figure = fromWearLaw(law, (drawn) => cost(drawn, x));
    const y = cost(law, x);
    if (figure.kind === 'not-estimable') return { x, y, lower: y, upper: y };
    return { x, y, lower: figure.lower, upper: figure.upper };
  });
  const chart: CurveChart = {
    curves: [{ name, points }],
    shape: 'line',
    xTitle: 'respooled after so many fights',
    yTitle: `${currency} a ${per} for one rod: filling and lost fish`,
    xSpan: [from, to],
    ySpan: [0, cost(law, ageFights)],
    level: null,
    mark: { x: ageFights, label: `cheapest: ${formatDecimal(ageFights, 0)} fights` },
  };
  const words = {
    id: `respool-picture-${at}`,
    title: `${name}: cost of one rod a ${per}, by respool age`,
    description:
      `Falls from ${formatDecimal(cost(law, from), 2)} at ${formatDecimal(from, 0)} fights to ` +
      `${formatDecimal(cost(law, ageFights), 2)} at ${formatDecimal(ageFights, 0)}, then rises to ` +
      `${formatDecimal(cost(law, to), 2)} at ${formatDecimal(to, 0)}. Band: ${intervalWords(context)}.`,
  };
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: `${sentenceCase(name)}. Line: cost by the fitted wear. Band: ${intervalWords(context)}, from resampled trips. Where it is flat, it hardly matters.`,
  };
}

/** Without prices: how many lines of a hundred break at each age. */
async function wearPicture(
  { line }: LineAdvice,
  law: WearLaw,
  at: number,
): Promise<CaptionedPicture> {
  const name = printable(levelWords(line.lineType));
  const breaks = ({ shape, theta }: { shape: number; theta: number }, fight: number) =>
    100 * ((fight / theta) ** shape - ((fight - 1) / theta) ** shape);
  const last = Math.max(2, law.oldestFights);
  const step = Math.max(1, Math.floor(last / STEPS));
  const points = Array.from({ length: Math.floor((last - 1) / step) + 1 }, (_, i) => {
    const x = 1 + step * i;
    const y = breaks(law, x);
    const figure = fromWearLaw(law, (drawn) => breaks(drawn, x));
    if (figure.kind === 'not-estimable') return { x, y, lower: y, upper: y };
    return { x, y, lower: figure.lower, upper: figure.upper };
  });
  const chart: CurveChart = {
    curves: [{ name, points }],
    shape: 'line',
    xTitle: 'fights on the line',
    yTitle: 'lines broken per 100 fights at that age',
    xSpan: [0, last],
    ySpan: [0, 1],
    level: null,
    mark: null,
  };
  const words = {
    id: `respool-picture-${at}`,
    title: `${name}: lines broken per 100 fights, by age`,
    description: `From ${formatDecimal(breaks(law, 1), 1)} on new line to ${formatDecimal(breaks(law, last), 1)} in fight ${last}.`,
  };
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: `${sentenceCase(name)}. Line: by the fitted wear. Band: its interval, from resampled trips.`,
  };
}

interface PriceRow extends RespoolAtPrice {
  readonly lineType: string;
}

/** The age under other prices of a lost fish. */
function priceTable(context: ReportContext, rows: readonly PriceRow[]): DataTable<PriceRow> {
  const currency = printable(context.season.log.settings.currency ?? 'your money');
  return {
    id: 'respool-table',
    caption: `The respool age if a lost fish cost something else. In brackets: the ${intervalWords(context)}, from resampled trips.`,
    columns: [
      {
        head: 'line',
        kind: 'text',
        cell: ({ lineType }) => levelWords(lineType),
        csv: [{ head: 'line_type', value: ({ lineType }) => lineType }],
      },
      {
        head: `a lost fish costs, in ${currency}`,
        kind: 'number',
        cell: ({ lostFish }) => (lostFish === null ? 'not set' : formatDecimal(lostFish, 2)),
        csv: [{ head: 'lost_fish', value: ({ lostFish }) => lostFish }],
      },
      {
        head: 'which is so many fillings',
        kind: 'number',
        cell: ({ fishPerFilling }) => formatDecimal(fishPerFilling, 1),
        csv: [{ head: 'fish_per_filling', value: ({ fishPerFilling }) => fishPerFilling }],
      },
      figureColumn('respool after fights', {
        of: (row: PriceRow) => row.age,
        name: 'respool_age_fights',
        style: PLAIN,
      }),
    ],
    rows,
  };
}
