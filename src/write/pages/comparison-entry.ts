import { figureText, POINTS } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { formatDate } from '../../base/format-time.ts';
import { plural } from '../../base/words.ts';
import { dayNumber } from '../../base/zone.ts';
import type { AnsweredComparison } from '../../decide/answer-comparison.ts';
import { mainComparison } from '../../decide/headlines.ts';
import { MEASURE_WORDS } from '../../decide/measure-words.ts';
import { sameDayNote } from '../../decide/same-day-note.ts';
import { drawCurves } from '../../draw/draw-curves.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { Comparison } from '../../estimate/comparison.ts';
import type { Lens, LensName } from '../../estimate/lens.ts';
import { factorWords, levelPlace } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { levelName } from './level-words.ts';
import type { ReportContext } from './report-context.ts';

/** A question that two levels of one factor answer. */
export interface ComparisonAsked {
  readonly id: string;
  readonly factor: FactorName;
  /** The question where fewer than two levels are in the log. */
  readonly question: string;
}

const LENS_NAMES: Readonly<Record<LensName, string>> = {
  as_logged: 'as logged',
  same_day: 'same day',
  adjusted: 'adjusted',
};

/** The two most fished levels of a factor, seen three ways, and how the answer came about. */
export async function comparisonEntry(
  context: ReportContext,
  { id, factor, question }: ComparisonAsked,
): Promise<EntryWithFiles> {
  const { season, filter, level, seed } = context;
  const answered = mainComparison(season, { ...filter, level, seed }, factor);
  if (answered === null) {
    const answer = `The log has bites on fewer than two kinds of ${factorWords(factor)}, so there is nothing to compare.`;
    return { entry: { id, question, answer }, files: [] };
  }
  const { comparison, verdict, words } = answered;
  const table = lensTable(id, answered);
  const csv = `${id}.csv`;
  const [a, b] = comparison.levels.map((one) => levelPlace(factor, one));
  const course = await coursePicture(id, comparison);
  return {
    entry: {
      id,
      question: `Are more bites hooked ${a} than ${b}?`,
      answer: `${VERDICTS[verdict.word]} ${words.answer}`,
      asides: asidesOf(answered),
      pictures: [await lensPicture(id, answered), ...course],
      table: { view: tableView(table), csv },
      how: { text: 'Three lenses on one difference, errors by trip.', anchor: 'lenses' },
    },
    files: [{ name: csv, text: tableCsv(table) }],
  };
}

const VERDICTS = { clear: 'Clear.', alike: 'Alike.', open: 'Open.', tied: 'Tied.' } as const;

function asidesOf({ comparison, words }: AnsweredComparison): string[] {
  const { clearSince } = comparison.season;
  const since =
    clearSince === null
      ? []
      : [
          `The same-day difference, on the band that may be read every day, has left out "no difference" since ${formatDate(clearSince)}.`,
        ];
  const said = [words.next, words.basis].filter((part) => part !== null);
  return [...(said.length === 0 ? [] : [said.join(' ')]), ...since, ...leftOut(comparison)];
}

/** What the lenses could not use, each reason once. */
function leftOut({ lenses }: Comparison): string[] {
  const reasons = Object.values(lenses).flatMap((lens) => [
    ...(lens.refused === null ? [] : [`${LENS_NAMES[lens.name]}: ${lens.refused}`]),
    ...lens.dropped
      .filter(({ reason }) => reason !== lens.refused)
      .map(({ covariate, reason }) => `${factorWords(covariate)}: ${reason}`),
  ]);
  return reasons.length === 0 ? [] : [`Left out. ${[...new Set(reasons)].join(' ')}`];
}

async function lensPicture(id: string, answered: AnsweredComparison): Promise<CaptionedPicture> {
  const { comparison, verdict } = answered;
  const [a, b] = comparison.levels.map((level) => levelName(comparison.factor, level));
  const lenses = Object.values(comparison.lenses).filter((lens) => lens.refused === null);
  const rows = lenses.map((lens) => ({
    label: LENS_NAMES[lens.name] + (lens.name === verdict.primary ? ' (the verdict)' : ''),
    marks: [{ figure: lens.difference, n: plural(lens.bites, 'bite'), thin: lens.bites < 10 }],
  }));
  const margin = verdict.margin;
  const chart = {
    rows,
    series: [],
    style: POINTS,
    axisTitle: `hooked, points of difference: ${a} less ${b}`,
    reference: { value: 0, label: '' },
    shaded: { from: -margin, to: margin, label: 'too small to matter' },
    span: [-1.5 * margin, 1.5 * margin] as const,
  };
  const words = {
    id: `${id}-lenses`,
    title: `Difference in the share of bites hooked, ${a} less ${b}, through three lenses`,
    description: lenses
      .map((lens) => `${LENS_NAMES[lens.name]}: ${figureText(lens.difference, POINTS).long}`)
      .join('; '),
  };
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption:
      'Dot: difference. Bar: its interval. Broken line: no difference. ' +
      'As logged: all bites. Same day: trips that fished both. Adjusted: the rest held equal.',
  };
}

/** Fewer trips than this make no course worth a picture. */
const FEWEST_STEPS = 5;
/** A band as wide as this says nothing yet, and would flatten what follows. */
const WIDEST_BAND = 0.6;

async function coursePicture(id: string, comparison: Comparison): Promise<CaptionedPicture[]> {
  const steps = comparison.season.steps.filter(
    ({ difference }) =>
      difference.kind === 'estimated' && difference.upper - difference.lower < WIDEST_BAND,
  );
  const first = steps[0];
  if (first === undefined || steps.length < FEWEST_STEPS) return [];
  const start = dayNumber(first.date);
  const [a, b] = comparison.levels.map((level) => levelName(comparison.factor, level));
  const points = steps.flatMap(({ date, difference }) => {
    if (difference.kind === 'not-estimable') return [];
    const { estimate, lower, upper } = difference;
    const x = dayNumber(date) - start;
    return [{ x, y: 100 * estimate, lower: 100 * lower, upper: 100 * upper }];
  });
  const chart = {
    curves: [{ name: 'same day, read after every trip', points }],
    shape: 'steps' as const,
    xTitle: `days since ${formatDate(first.date)}, when the band first told something`,
    yTitle: `points of difference, ${a} less ${b}`,
    xSpan: [0, points.at(-1)?.x ?? 0] as const,
    ySpan: [-20, 20] as const,
    level: 0,
    mark: null,
  };
  const last = steps.at(-1);
  const now = last === undefined ? '' : figureText(last.difference, POINTS).long;
  const words = {
    id: `${id}-course`,
    title: `The same-day difference as the season went on, ${a} less ${b}`,
    description: `Now: ${now}`,
  };
  return [
    {
      picture: await renderPicture(words, (width) => drawCurves(chart, width)),
      caption:
        'The same-day difference as the season went on, with a band that may be read every day. ' +
        'It is wider than an interval read once.',
    },
  ];
}

function lensTable(id: string, { comparison }: AnsweredComparison): DataTable<Lens> {
  const { style } = MEASURE_WORDS[comparison.measure];
  const [a, b] = comparison.levels.map((level) => levelName(comparison.factor, level));
  const within =
    comparison.lenses.same_day.refused === null
      ? ` Same day: ${sameDayNote(comparison.measure)}`
      : '';
  const share = (head: string, of: (lens: Lens) => Lens['a']) => ({
    head,
    kind: 'number' as const,
    cell: (lens: Lens) => figureText(of(lens), style).short,
    csv: limitsCsv(head, of),
  });
  return {
    id: `${id}-table`,
    caption: `The three lenses, by ${factorWords(comparison.factor)}. In brackets: the intervals.${within}`,
    columns: [
      {
        head: 'lens',
        kind: 'text',
        cell: (lens) => LENS_NAMES[lens.name],
        csv: [{ head: 'lens', value: (lens) => lens.name }],
      },
      {
        head: 'difference',
        kind: 'number',
        cell: (lens) => figureText(lens.difference, POINTS).short,
        csv: limitsCsv('difference', (lens) => lens.difference),
      },
      share(a ?? '', (lens) => lens.a),
      share(b ?? '', (lens) => lens.b),
      ...(['bites', 'trips'] as const).map((name) => ({
        head: name,
        kind: 'number' as const,
        cell: (lens: Lens) => formatCount(lens[name]),
        csv: [{ head: name, value: (lens: Lens) => lens[name] }],
      })),
    ],
    rows: Object.values(comparison.lenses),
  };
}

function limitsCsv(head: string, of: (lens: Lens) => Lens['a']) {
  return (['estimate', 'lower', 'upper'] as const).map((limit) => ({
    head: limit === 'estimate' ? head : `${head}_${limit}`,
    value: (lens: Lens) => {
      const figure = of(lens);
      return figure.kind === 'estimated' ? figure[limit] : null;
    },
  }));
}
