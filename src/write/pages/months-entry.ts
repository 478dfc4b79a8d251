import { figureText, PER_10_LINE_HOURS } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { formatMonth, formatMonthShort } from '../../base/format-time.ts';
import { type AlongChart, type AlongPoint, drawAlong } from '../../draw/draw-along.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import {
  INDEX_COVARIATES,
  type StandardisedIndex,
  standardisedIndex,
} from '../../estimate/standardised-index.ts';
import type { Measure } from '../../tally/measures.ts';
import { remembered } from '../../tidy/remember.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { isThin, THIN_WORDS } from './enough.ts';
import { type EntryWithFiles, howWorkedOut } from './level-entry.ts';
import { type LevelRates, levelRates } from './level-rates.ts';
import { levelSentence } from './level-sentence.ts';
import { levelTable } from './level-table.ts';
import { intervalWords, MEASURE_HEADS, type ReportContext } from './report-context.ts';

const MEASURES: readonly [Measure, ...Measure[]] = [
  'caught_per_line_hour',
  'bites_per_line_hour',
  'hookup_rate',
];

/** The standardised index by month, worked out once for a report. */
export function monthsIndex({ season, filter, level, seed }: ReportContext): StandardisedIndex {
  const { only, from, to } = filter;
  return remembered(season, { months: { only, from, to, level, seed } }, () =>
    standardisedIndex(season, {
      ...filter,
      by: 'month',
      measure: 'caught_per_line_hour',
      adjust: INDEX_COVARIATES,
      level,
      seed,
    }),
  );
}

/** Catch per line-hour month by month, as logged and standardised. */
export async function monthsEntry(context: ReportContext): Promise<EntryWithFiles> {
  const index = monthsIndex(context);
  const levels = levelRates(context, ['month'], MEASURES);
  const table = levelTable(levels, {
    id: 'months-table',
    caption: `By month. In brackets: the ${intervalWords(context)}. Grey: too little to rank.`,
    factors: ['month'],
    measures: MEASURES,
  });
  const hasRates = levels.some(({ main }) => main.rate.kind === 'estimated');
  return {
    entry: {
      id: 'months',
      question: 'How did it go, month by month?',
      answer:
        levels.length === 0
          ? 'There is no trip in this log yet.'
          : levelSentence(['month'], levels),
      asides: hasRates
        ? [
            'As logged: the months differ in where, how and with what lines fished. Standardised: reach, bait and wind held equal, drawn to the same mean.',
          ]
        : [],
      pictures: hasRates ? [await monthsPicture(context, levels, index)] : [],
      ...(levels.length === 0 ? {} : { table: { view: tableView(table), csv: 'months.csv' } }),
      how: howWorkedOut('caught_per_line_hour', context),
    },
    files: levels.length === 0 ? [] : [{ name: 'months.csv', text: tableCsv(table) }],
  };
}

async function monthsPicture(
  context: ReportContext,
  levels: readonly LevelRates[],
  index: StandardisedIndex,
): Promise<CaptionedPicture> {
  const chart = monthsChart(levels, index);
  const described = levels.map(({ name, main }) => {
    return `${name}: ${figureText(main.rate, PER_10_LINE_HOURS).short}`;
  });
  const words = {
    id: 'months-picture',
    title: `Fish ${MEASURE_HEADS.caught_per_line_hour}, by month`,
    description: `Dots with ${intervalWords(context)}s. ${described.slice(0, 24).join('; ')}.`,
  };
  const hollow = levels.some(({ main }) => isThin(main)) ? ` ${THIN_WORDS}` : '';
  return {
    picture: await renderPicture(words, (width) => drawAlong(chart, width)),
    caption: `Dot: as logged or standardised. Bar: ${intervalWords(context)}.${hollow}`,
  };
}

/** Every calendar month from the first to the last has its place, fished or not. */
function monthsChart(levels: readonly LevelRates[], index: StandardisedIndex): AlongChart {
  const byMonth = new Map(levels.map((level) => [level.by.month ?? '', level]));
  const months = monthsBetween([...byMonth.keys()].sort());
  const points = months.flatMap((month, x) => {
    const level = byMonth.get(month);
    return level === undefined ? [] : [{ x, figure: level.main.rate, thin: isThin(level.main) }];
  });
  const [first = '', last = first] = [months[0], months.at(-1)];
  const span =
    first === last ? formatMonth(first) : `${formatMonth(first)} to ${formatMonth(last)}`;
  return {
    series: [
      { name: 'as logged', points },
      ...(index.refused === null
        ? [{ name: 'standardised', points: indexPoints(index, months) }]
        : []),
    ],
    ticks: months.map((month, x) => ({
      x,
      label: formatMonthShort(month),
      count: formatCount(byMonth.get(month)?.main.bites ?? 0),
    })),
    xSpan: [-0.6, months.length - 0.4],
    style: PER_10_LINE_HOURS,
    yTitle: `fish ${MEASURE_HEADS.caught_per_line_hour}`,
    xTitle: `${span}; under each month, its bites`,
    joined: true,
  };
}

/** The index in the unit of the rates, so that both series have the same mean. */
function indexPoints({ rows }: StandardisedIndex, months: readonly string[]): AlongPoint[] {
  const mean = rows.reduce((sum, row) => sum + row.rawPerLineHour, 0) / rows.length;
  return rows.flatMap(({ level, standardised }) => {
    const x = months.indexOf(level);
    if (x < 0 || standardised.kind === 'not-estimable') return [];
    const { estimate, lower, upper } = standardised;
    if (!Number.isFinite(lower) || !Number.isFinite(upper)) return [];
    const scaled = { estimate: estimate * mean, lower: lower * mean, upper: upper * mean };
    return [{ x, figure: { ...standardised, ...scaled }, thin: false }];
  });
}

function monthsBetween(months: readonly string[]): string[] {
  const [first = '', last = first] = [months[0], months.at(-1)];
  const count = (month: string) => 12 * Number(month.slice(0, 4)) + Number(month.slice(5, 7)) - 1;
  return Array.from({ length: count(last) - count(first) + 1 }, (_, i) => {
    const at = count(first) + i;
    const year = String(Math.floor(at / 12)).padStart(4, '0');
    return `${year}-${String((at % 12) + 1).padStart(2, '0')}`;
  });
}
