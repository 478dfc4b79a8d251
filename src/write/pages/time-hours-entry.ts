import { figureText } from '../../base/format-figure.ts';
import { formatClock } from '../../base/format-time.ts';
import { drawHours, type HoursChart } from '../../draw/draw-hours.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { Measure } from '../../tally/measures.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { isThin, THIN_WORDS } from './enough.ts';
import { type EntryWithFiles, howWorkedOut } from './level-entry.ts';
import { type LevelRates, levelRates } from './level-rates.ts';
import { levelSentence } from './level-sentence.ts';
import { levelTable } from './level-table.ts';
import {
  intervalWords,
  MEASURE_HEADS,
  measureStyle,
  type ReportContext,
} from './report-context.ts';

const MEASURES: readonly [Measure, ...Measure[]] = [
  'bites_per_line_hour',
  'hookup_rate',
  'caught_per_line_hour',
];
const CSV = 'hours.csv';

/** When they bite: bites per line-hour in each hour of the day, over the hours fished. */
export async function timeHoursEntry(context: ReportContext): Promise<EntryWithFiles> {
  const levels = levelRates(context, ['hour_of_day'], MEASURES);
  const clocked = levels.filter((level) => !level.isMissing);
  const table = levelTable(levels, {
    id: 'hours-table',
    caption: `By hour of the boat’s clock, each from its full hour on. In brackets: the ${intervalWords(context)}. Grey: too little to rank.`,
    factors: ['hour_of_day'],
    measures: MEASURES,
  });
  return {
    entry: {
      id: 'hours',
      question: 'When do they bite?',
      answer:
        clocked.length === 0
          ? 'The log does not say at what time of day lines fished or bites came.'
          : levelSentence(['hour_of_day'], levels),
      asides: clocked.length === 0 ? [] : [AS_LOGGED],
      pictures: clocked.length === 0 ? [] : [await hoursPicture(context, clocked)],
      ...(levels.length === 0 ? {} : { table: { view: tableView(table), csv: CSV } }),
      how: howWorkedOut('bites_per_line_hour', context),
    },
    files: levels.length === 0 ? [] : [{ name: CSV, text: tableCsv(table) }],
  };
}

const AS_LOGGED =
  'As logged: hours that were fished on few trips are those trips as much as the hour. Bites without a time or a soak are left out.';

async function hoursPicture(
  context: ReportContext,
  levels: readonly LevelRates[],
): Promise<CaptionedPicture> {
  const style = measureStyle('bites_per_line_hour');
  const chart: HoursChart = {
    hours: levels.map(({ by, main }) => ({
      hour: Number(by.hour_of_day),
      figure: main.rate,
      thin: isThin(main),
      lineHours: main.line_hours ?? 0,
    })),
    style,
    yTitle: MEASURE_HEADS.bites_per_line_hour,
  };
  const described = levels.map(
    ({ by, main }) =>
      `from ${formatClock(60 * Number(by.hour_of_day))}: ${figureText(main.rate, style).short}`,
  );
  const words = {
    id: 'hours-picture',
    title: 'Bites per 10 line-hours, by hour of the day',
    description: `Dots with ${intervalWords(context)}s; bars: line-hours fished. ${described.join('; ')}.`,
  };
  const hollow = levels.some(({ main }) => isThin(main)) ? ` ${THIN_WORDS}` : '';
  return {
    picture: await renderPicture(words, (width) => drawHours(chart, width)),
    caption: `Dot: as logged. Bar through it: ${intervalWords(context)}. Below: how long lines fished.${hollow}`,
  };
}
