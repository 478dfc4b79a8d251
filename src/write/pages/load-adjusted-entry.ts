import { figureText, TIMES } from '../../base/format-figure.ts';
import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { levelWords, listWords, printable } from '../../base/words.ts';
import type { DotChart, DotMark } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { IndexRow, StandardisedIndex } from '../../estimate/standardised-index.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH, THIN_WORDS } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

const CSV = 'bait-adjusted.csv';
const MOST_ROWS = 30;

/** Baits with reach and month held equal: bites and fish caught per line-hour, 1 the mean bait. */
export async function loadAdjustedEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { adjusted } = context.stock();
  const id = 'bait-adjusted';
  const question = 'Which baits catch more, with reach and month held equal?';
  const { caught } = adjusted;
  const rows = caught.rows.filter(({ level }) => level !== NOT_RECORDED);
  if (caught.refused !== null || rows.length < 2) {
    const answer = caught.refused ?? 'It takes two baits to compare.';
    return { entry: { id, question, answer }, files: [] };
  }
  const table = adjustedTable(context, rows, adjusted);
  return {
    entry: {
      id,
      question,
      answer: adjustedSentence(rows),
      asides: caught.notes,
      pictures: [await adjustedPicture(context, rows)],
      table: { view: tableView(table), csv: CSV },
      how: {
        text: 'A model of fish per soak with reach and month beside bait; each bait on the log’s own mix, 1 the mean of all.',
        anchor: 'index',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** Which baits lie wholly above or below the mean one. */
function adjustedSentence(rows: readonly IndexRow[]): string {
  const names = (isApart: (limits: { lower: number; upper: number }) => boolean) =>
    rows.flatMap(({ level, standardised }) =>
      standardised.kind === 'estimated' && isApart(standardised) ? [levelWords(level)] : [],
    );
  const above = names(({ lower }) => lower > 1);
  const below = names(({ upper }) => upper < 1);
  const held = 'With reach and month held equal';
  if (above.length + below.length === 0) {
    return `${held}, no bait catches clearly more or less than the mean one.`;
  }
  const catches = (count: number) => (count === 1 ? 'catches' : 'catch');
  const more = `${listWords(above)} ${catches(above.length)} more`;
  const less = `${listWords(below)} ${catches(below.length)} less`;
  if (below.length === 0) return `${held}, ${more} than the mean bait.`;
  if (above.length === 0) return `${held}, ${less} than the mean bait.`;
  return `${held}, ${more} than the mean bait and ${less}.`;
}

/** Dots around the mean bait. */
async function adjustedPicture(
  context: ReportContext,
  rows: readonly IndexRow[],
): Promise<CaptionedPicture> {
  const mark = (row: IndexRow): DotMark => ({
    figure: row.standardised,
    n: `${formatDecimal(row.lineHours, 0)} h`,
    thin: isThin(row),
  });
  const shown = rows.slice(0, MOST_ROWS);
  const chart: DotChart = {
    rows: shown.map((row) => ({ label: printable(levelWords(row.level)), marks: [mark(row)] })),
    series: [],
    style: TIMES,
    axisTitle: 'fish caught per line-hour, reach and month held equal; 1 = the mean bait',
    reference: { value: 1, label: 'mean bait' },
    shaded: null,
    span: [0.8, 1.2],
  };
  const described = shown.map(
    ({ level, standardised }) => `${levelWords(level)}: ${figureText(standardised, TIMES).short}`,
  );
  const words = {
    id: 'bait-adjusted-picture',
    title: 'Fish caught per line-hour by bait, reach and month held equal',
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const hollow = shown.some(isThin) ? ` ${THIN_WORDS}` : '';
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: adjusted. Bar: ${intervalWords(context)}. Broken line: the mean bait.${hollow}`,
  };
}

/** As for every figure of a page: fewer than 10 fish or 5 trips. */
function isThin({ trips, lineHours, rawPerLineHour }: IndexRow): boolean {
  return trips < ENOUGH.trips || lineHours * rawPerLineHour < ENOUGH.bites;
}

/** All three counts, and the caught ones as logged beside them. */
function adjustedTable(
  context: ReportContext,
  rows: readonly IndexRow[],
  adjusted: Readonly<Record<'bites' | 'hooked' | 'caught', StandardisedIndex>>,
): DataTable<IndexRow> {
  const index = (counted: 'bites' | 'hooked' | 'caught') =>
    figureColumn(`${counted}, adjusted`, {
      of: ({ level }: IndexRow) =>
        adjusted[counted].rows.find((row) => row.level === level)?.standardised ?? null,
      name: `${counted}_index`,
      style: TIMES,
    });
  return {
    id: 'bait-adjusted-table',
    caption: `Per line-hour, 1 = the mean bait. In brackets: the ${intervalWords(context)}.`,
    columns: [
      {
        head: 'bait',
        kind: 'text',
        cell: ({ level }) => levelWords(level),
        csv: [{ head: 'bait', value: ({ level }) => level }],
      },
      {
        head: 'trips',
        kind: 'number',
        cell: ({ trips }) => formatCount(trips),
        csv: [{ head: 'trips', value: ({ trips }) => trips }],
      },
      index('bites'),
      index('hooked'),
      index('caught'),
      {
        head: 'caught, as logged',
        kind: 'number',
        cell: ({ raw }) => (raw === null ? 'not known' : formatDecimal(raw, 2)),
        csv: [{ head: 'caught_raw', value: ({ raw }) => raw }],
      },
    ],
    rows,
    thin: isThin,
  };
}
