import { figureText, PER_10_LINE_HOURS } from '../../base/format-figure.ts';
import { formatCount, formatHours } from '../../base/format-number.ts';
import { plural, sentenceCase } from '../../base/words.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { ConditionLevel, ConditionRates } from '../../estimate/condition-rates.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH, THIN_WORDS } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { shortLevel } from './level-words.ts';
import { intervalWords, MEASURE_HEADS, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

const MOST_ROWS = 20;

/** Whether a level of a condition rests on too little to be ranked. */
export function isThinLevel({ bites, trips }: ConditionLevel): boolean {
  return bites < ENOUGH.bites || trips < ENOUGH.trips;
}

/**
 * One condition: a sentence, a small picture, the table behind it.
 * @param most where the axes of all conditions end, in bites per line-hour
 */
export async function conditionEntry(
  context: ReportContext,
  rates: ConditionRates,
  most: number,
): Promise<EntryWithFiles> {
  const { condition, levels } = rates;
  const id = `by-${condition.name.replace('_', '-')}`;
  const question = `${sentenceCase(condition.words)}?`;
  const known = levels.filter(({ level }) => level !== NOT_RECORDED);
  if (known.length === 0) {
    const where = condition.column === 'date' ? '' : `: log ${condition.column} in trips.csv`;
    const answer =
      levels.length === 0
        ? 'There is no trip with a bite or a line out in this log yet.'
        : `The log does not say the ${condition.words}${where}.`;
    return { entry: { id, question, answer }, files: [] };
  }
  const csv = `${id}.csv`;
  const table = levelsTable(context, rates, id);
  const hasRate = known.some(({ rate }) => rate.kind === 'estimated');
  return {
    entry: {
      id,
      question,
      answer: conditionSentence(rates, known),
      pictures: hasRate ? [await conditionPicture(context, { rates, known, most, id })] : [],
      table: { view: tableView(table), csv },
      how: {
        text: `Bites over line-hours of the trips, its ${intervalWords(context)} with trips as the unit that repeats.`,
        anchor: 'conditions',
      },
    },
    files: [{ name: csv, text: tableCsv(table) }],
  };
}

function conditionSentence(
  { condition, standsOut, test }: ConditionRates,
  known: readonly ConditionLevel[],
): string {
  const first = known[0]?.rate;
  if (first?.kind === 'not-estimable' && known.every(({ rate }) => rate.kind === 'not-estimable')) {
    return first.reason;
  }
  const ranked = known
    .filter((level) => !isThinLevel(level))
    .flatMap(({ name, rate }) => (rate.kind === 'estimated' ? [{ name, rate }] : []))
    .sort((a, b) => b.rate.estimate - a.rate.estimate);
  const [top, bottom] = [ranked[0], ranked.at(-1)];
  if (top === undefined || bottom === undefined) {
    return `Nothing here has enough behind it to judge yet: it takes ${ENOUGH.bites} bites over ${ENOUGH.trips} trips.`;
  }
  const place = ({ name }: typeof top) => condition.placeOf(shortLevel(name));
  const { long } = figureText(top.rate, PER_10_LINE_HOURS);
  const { short } = figureText(bottom.rate, PER_10_LINE_HOURS);
  if (top === bottom) return `Only one has enough behind it: bites came ${place(top)} at ${long}.`;
  const ends = `Bites came fastest ${place(top)}, ${long}, and slowest ${place(bottom)}, ${short}.`;
  if (test.p === null) return `${ends} Whether that is more than chance cannot be judged yet.`;
  if (!standsOut) return `${ends} With so many things looked at, that may well be chance.`;
  const within =
    test.pWithinMonth === null
      ? 'whether it is the season, the log cannot tell'
      : test.pWithinMonth <= 0.05
        ? 'also with the months held equal'
        : 'but not with the months held equal, so it may be the season';
  return `${ends} The ${condition.words} stands out, ${within}.`;
}

async function conditionPicture(
  context: ReportContext,
  {
    rates,
    known,
    most,
    id,
  }: {
    readonly rates: ConditionRates;
    readonly known: readonly ConditionLevel[];
    readonly most: number;
    readonly id: string;
  },
): Promise<CaptionedPicture> {
  const shown = known.slice(0, MOST_ROWS);
  const chart = {
    rows: shown.map((level) => ({
      label: level.name,
      marks: [{ figure: level.rate, n: plural(level.trips, 'trip'), thin: isThinLevel(level) }],
    })),
    series: [],
    style: PER_10_LINE_HOURS,
    axisTitle: MEASURE_HEADS.bites_per_line_hour,
    reference: null,
    shaded: null,
    span: [0, most] as const,
    cutAt: most,
  };
  const described = shown.map(
    ({ name, rate, trips }) =>
      `${name}: ${figureText(rate, PER_10_LINE_HOURS).short}, ${plural(trips, 'trip')}`,
  );
  const words = {
    id: `${id}-picture`,
    title: `Bites per 10 line-hours, by ${rates.condition.words}`,
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const hollow = shown.some(isThinLevel) ? ` ${THIN_WORDS}` : '';
  const isCut = shown.some(({ rate }) => rate.kind === 'estimated' && rate.upper > most);
  const cut = isCut ? ' Arrow: the interval goes on; its figures say how far.' : '';
  const left = known.length - shown.length;
  const rest = left > 0 ? ` ${plural(left, 'more row is', 'more rows are')} in the table.` : '';
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: as logged. Bar: ${intervalWords(context)}. All on the same axis.${cut}${hollow}${rest}`,
  };
}

function levelsTable(
  context: ReportContext,
  { condition, levels }: ConditionRates,
  id: string,
): DataTable<ConditionLevel> {
  return {
    id: `${id}-table`,
    caption: `Bites by ${condition.words}, whole trips. In brackets: the ${intervalWords(context)}. Grey: too little to rank.`,
    columns: [
      {
        head: condition.words,
        kind: 'text',
        cell: ({ name }) => name,
        csv: [
          { head: condition.name, value: ({ level }) => level },
          { head: 'name', value: ({ name }) => name },
        ],
      },
      {
        head: 'trips',
        kind: 'number',
        cell: ({ trips }) => formatCount(trips),
        csv: [{ head: 'trips', value: ({ trips }) => trips }],
      },
      {
        head: 'bites on them',
        kind: 'number',
        cell: ({ bites }) => formatCount(bites),
        csv: [{ head: 'bites', value: ({ bites }) => bites }],
      },
      {
        head: 'line-hours',
        kind: 'number',
        cell: ({ lineHours }) => formatHours(lineHours),
        csv: [{ head: 'line_hours', value: ({ lineHours }) => lineHours }],
      },
      figureColumn(MEASURE_HEADS.bites_per_line_hour, {
        of: ({ rate }: ConditionLevel) => rate,
        name: 'bites_per_line_hour',
        style: PER_10_LINE_HOURS,
      }),
    ],
    rows: levels,
    thin: isThinLevel,
  };
}
