import { figureText } from '../../base/format-figure.ts';
import { plural, sentenceCase } from '../../base/words.ts';
import type { DotChart } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { GroupRate } from '../../estimate/group-rate.ts';
import { isProportion } from '../../estimate/proportion.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import type { Measure } from '../../tally/measures.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture, Entry } from '../entry.tsx';
import type { TextFile } from '../new-files.ts';
import { isThin, THIN_WORDS } from './enough.ts';
import { type LevelRates, levelRates, rankedLevels } from './level-rates.ts';
import { levelSentence } from './level-sentence.ts';
import { levelTable } from './level-table.ts';
import {
  intervalWords,
  MEASURE_HEADS,
  measureStyle,
  type ReportContext,
} from './report-context.ts';

/** A question about the levels of one or two factors. */
export interface LevelQuestion {
  readonly id: string;
  readonly question: string;
  readonly factors: readonly FactorName[];
  /** The first is drawn and judged; all stand in the table. */
  readonly measures: readonly [Measure, ...Measure[]];
  /** `ranked`: highest first; `natural`: in the order of the settings or of size. */
  readonly order: 'ranked' | 'natural';
  /** Levels that the sentence speaks of, where the question is about some of them only. */
  readonly among?: readonly string[];
  /** What the reader must hold against the figures. */
  readonly caution?: string;
}

/** An entry with the files that belong beside its page. */
export interface EntryWithFiles {
  readonly entry: Entry;
  readonly files: readonly TextFile[];
}

/** More rows than this do not make a picture; the table has them all. */
const MOST_ROWS = 30;

/** Answers a question about levels: sentence, dots with intervals, the table behind, its CSV. */
export async function levelEntry(
  context: ReportContext,
  asked: LevelQuestion,
): Promise<EntryWithFiles> {
  const found = levelRates(context, asked.factors, asked.measures);
  const levels = asked.order === 'ranked' ? rankedLevels(found) : found;
  const { among } = asked;
  const judged = levels.filter(({ by }) =>
    asked.factors.every((factor) => among?.includes(by[factor] ?? '') ?? true),
  );
  const answer = levelSentence(asked.factors, judged);
  const nouns = asked.factors.map(factorWords).join(' and ');
  const order =
    asked.order === 'ranked' ? 'highest first, what is not ranked last' : 'in their own order';
  const table = levelTable(levels, {
    id: `${asked.id}-table`,
    caption: `${sentenceCase(MEASURE_HEADS[asked.measures[0]])}, by ${nouns}, ${order}. In brackets: the ${intervalWords(context)}. Grey: too little to rank.`,
    factors: asked.factors,
    measures: asked.measures,
  });
  const csv = `${asked.id}.csv`;
  const hasLevels = levels.some((level) => !level.isMissing);
  const entry: Entry = {
    id: asked.id,
    question: asked.question,
    answer,
    asides: asked.caution === undefined || !hasLevels ? [] : [asked.caution],
    pictures: hasLevels ? [await levelPicture(context, asked, levels)] : [],
    ...(levels.length === 0 ? {} : { table: { view: tableView(table), csv } }),
    how: howWorkedOut(asked.measures[0], context),
  };
  return { entry, files: levels.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }] };
}

/** The line that says how a figure came about, with the anchor that says more. */
export function howWorkedOut(
  measure: Measure,
  context: ReportContext,
): { readonly text: string; readonly anchor: string } {
  const interval = intervalWords(context);
  return isProportion(measure)
    ? {
        text: `A share of what was counted, its ${interval} with trips as the unit that repeats.`,
        anchor: 'share',
      }
    : {
        text: `Counts over line-hours, its ${interval} with trips as the unit that repeats.`,
        anchor: 'rate',
      };
}

async function levelPicture(
  context: ReportContext,
  asked: LevelQuestion,
  levels: readonly LevelRates[],
): Promise<CaptionedPicture> {
  const [measure] = asked.measures;
  const known = levels.filter((level) => asked.factors.length < 2 || !level.isMissing);
  const shown = known.slice(0, MOST_ROWS);
  const [whole] = context.rates([], [measure]);
  const chart = dotChart(measure, shown, whole);
  const title = `${MEASURE_HEADS[measure]}, by ${asked.factors.map(factorWords).join(' and ')}`;
  const described = shown.map(({ name, main }) => {
    return `${name}: ${figureText(main.rate, measureStyle(measure)).short}, ${countWords(main)}`;
  });
  const words = {
    id: `${asked.id}-picture`,
    title: sentenceCase(title),
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const left = known.length - shown.length;
  const rest = left > 0 ? ` ${plural(left, 'more row is', 'more rows are')} in the table.` : '';
  const line = chart.reference === null ? '' : ' Broken line: the whole log.';
  const hollow = shown.some(({ main }) => isThin(main)) ? ` ${THIN_WORDS}` : '';
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: as logged. Bar: ${intervalWords(context)}.${line}${hollow}${rest}`,
  };
}

function dotChart(
  measure: Measure,
  levels: readonly LevelRates[],
  whole: GroupRate | undefined,
): DotChart {
  const style = measureStyle(measure);
  const rate = whole?.rate;
  return {
    rows: levels.map(({ name, main }) => ({
      label: name,
      marks: [{ figure: main.rate, n: countWords(main), thin: isThin(main) }],
    })),
    series: [],
    style,
    axisTitle: MEASURE_HEADS[measure],
    reference:
      rate?.kind === 'estimated'
        ? { value: rate.estimate, label: `whole log ${figureText(rate, style).value}` }
        : null,
    shaded: null,
    span: isProportion(measure) ? leastSpan(rate) : [0, 0],
  };
}

/** An axis of shares spans 20 points at least, so that small differences do not look large. */
function leastSpan(rate: GroupRate['rate'] | undefined): readonly [number, number] | null {
  if (rate?.kind !== 'estimated') return null;
  return [Math.max(0, rate.estimate - 0.1), Math.min(1, rate.estimate + 0.1)];
}

/** The count behind a figure: bites, or hooked fish where those are what it divides by. */
function countWords({ measure, bites, denominator }: GroupRate): string {
  return measure === 'caught_rate' || measure === 'release_rate'
    ? `${plural(denominator, 'hooked fish', 'hooked fish')}`
    : plural(bites, 'bite');
}
