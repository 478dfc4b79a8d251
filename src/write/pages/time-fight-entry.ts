import { type FigureStyle, figureText } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { plural, sentenceCase } from '../../base/words.ts';
import { type CurveChart, drawCurves } from '../../draw/draw-curves.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { type FightLength, fightLengths } from '../../estimate/fight-length.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { levelName, shortLevel } from './level-words.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

/** Which fights are set side by side. */
export interface FightQuestion {
  readonly id: string;
  readonly question: string;
  readonly factor: FactorName;
}

const MINUTES: FigureStyle = { kind: 'number', unit: 'min' };
const MOST_CURVES = 3;
/** A curve ends where fewer than this share of fish are still on: the tail is a few long fights. */
const TAIL = 0.03;

/** How long fights are, by gear or by fish: medians in words, curves, the table behind. */
export async function timeFightEntry(
  context: ReportContext,
  asked: FightQuestion,
): Promise<EntryWithFiles> {
  const { season, filter, level } = context;
  const lengths = fightLengths(season, asked.factor, { ...filter, level });
  const timed = lengths.filter(({ fights }) => fights > 0);
  const known = timed.filter((length) => length.level !== NOT_RECORDED);
  const csv = `${asked.id}.csv`;
  const table = fightTable(context, asked, lengths);
  const notTimed = lengths.reduce((sum, length) => sum + length.notTimed, 0);
  const left =
    notTimed > 0 && timed.length > 0
      ? [
          `${plural(notTimed, 'hooked fish has', 'hooked fish have')} no fight minutes and ${notTimed === 1 ? 'is' : 'are'} left out.`,
        ]
      : [];
  return {
    entry: {
      id: asked.id,
      question: asked.question,
      answer: fightSentence(asked.factor, lengths, known),
      asides: left,
      pictures: known.length === 0 ? [] : [await fightPicture(context, asked, known)],
      ...(lengths.length === 0 ? {} : { table: { view: tableView(table), csv } }),
      how: {
        text: 'Minutes to the boat (Kaplan–Meier); a fish that was lost counts as on for at least so long.',
        anchor: 'fight-time',
      },
    },
    files: lengths.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }],
  };
}

function isThinFight({ fights, trips }: FightLength): boolean {
  return fights < ENOUGH.bites || trips < ENOUGH.trips;
}

function fightSentence(
  factor: FactorName,
  lengths: readonly FightLength[],
  known: readonly FightLength[],
): string {
  const noun = factorWords(factor);
  if (lengths.length === 0) return 'No fish was hooked, so there is no fight to time.';
  if (lengths.every(({ fights }) => fights === 0)) {
    return 'How long fights lasted is not recorded: log fight_min in bites.csv.';
  }
  if (known.length === 0) return `The log does not say the ${noun} of the fish that were timed.`;
  const enough = known
    .filter((length) => !isThinFight(length))
    .flatMap(({ level, median }) => (median.kind === 'estimated' ? [{ level, median }] : []))
    .sort((a, b) => a.median.estimate - b.median.estimate);
  const [short, long] = [enough[0], enough.at(-1)];
  if (short === undefined || long === undefined) {
    return `No ${noun} has enough timed fights behind it yet: it takes ${ENOUGH.bites} over ${ENOUGH.trips} trips.`;
  }
  const name = (level: string) => levelName(factor, shortLevel(level));
  const half = `Half of the fish were at the boat within ${figureText(short.median, MINUTES).short}`;
  if (short === long)
    return `${half} (${name(short.level)}, the only ${noun} with enough behind it).`;
  const place = (level: string) =>
    factor === 'species' ? `for ${name(level)}` : `on ${name(level)}`;
  const apart = short.median.upper < long.median.lower;
  return (
    `${half} ${place(short.level)}, and within ${figureText(long.median, MINUTES).short} ${place(long.level)}. ` +
    (apart ? 'Their intervals lie apart.' : 'Their intervals overlap: too close to call.')
  );
}

async function fightPicture(
  context: ReportContext,
  { id, factor }: FightQuestion,
  known: readonly FightLength[],
): Promise<CaptionedPicture> {
  const shown = [...known].sort((a, b) => b.fights - a.fights).slice(0, MOST_CURVES);
  const name = ({ level }: FightLength) => levelName(factor, level);
  const chart: CurveChart = {
    curves: shown.map((length) => ({ name: name(length), points: curvePoints(length) })),
    shape: 'steps',
    xTitle: 'minutes since the hook-up',
    yTitle: 'fish not yet at the boat, %',
    xSpan: [0, 1],
    ySpan: [0, 100],
    level: null,
    mark: null,
  };
  const words = {
    id: `${id}-picture`,
    title: `Fish not yet at the boat, by minutes and ${factorWords(factor)}`,
    description: shown
      .map(
        (length) =>
          `${name(length)}: half within ${figureText(length.median, MINUTES).short}, ${plural(length.fights, 'fight')}`,
      )
      .join('; '),
  };
  const left = known.length - shown.length;
  const rest = left > 0 ? ` The ${shown.length} with most fights; all are in the table.` : '';
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: `Line: share of fish still on. Band: ${intervalWords(context)} at each minute by itself, trips as the unit that repeats. It ends where under 3 in 100 are left.${rest}`,
  };
}

function curvePoints({ curve }: FightLength) {
  const steps = curve.steps.filter(({ survival }) => survival >= TAIL);
  return [
    { x: 0, y: 100, lower: 100, upper: 100 },
    ...steps.map(({ time, survival, lower, upper }) => ({
      x: time,
      y: 100 * survival,
      lower: 100 * (lower ?? 0),
      upper: 100 * (upper ?? 1),
    })),
  ];
}

function fightTable(
  context: ReportContext,
  { id, factor }: FightQuestion,
  rows: readonly FightLength[],
): DataTable<FightLength> {
  const count = (head: string, name: 'fights' | 'caught' | 'trips' | 'notTimed') => ({
    head,
    kind: 'number' as const,
    cell: (row: FightLength) => formatCount(row[name]),
    csv: [{ head: head.replace(/ /g, '_'), value: (row: FightLength) => row[name] }],
  });
  return {
    id: `${id}-table`,
    caption: `${sentenceCase(`fight time by ${factorWords(factor)}`)}. In brackets: the ${intervalWords(context)}. Grey: fewer than ${ENOUGH.bites} fights or ${ENOUGH.trips} trips.`,
    columns: [
      {
        head: factorWords(factor),
        kind: 'text',
        cell: ({ level }) => levelName(factor, level),
        csv: [{ head: factor, value: ({ level }) => level }],
      },
      count('trips', 'trips'),
      count('fights timed', 'fights'),
      count('of them caught', 'caught'),
      count('fights not timed', 'notTimed'),
      figureColumn('half at the boat within, min', {
        of: ({ median }: FightLength) => median,
        name: 'median_min',
        style: { kind: 'number', unit: '' },
      }),
    ],
    rows,
    thin: isThinFight,
  };
}
