import { type Estimate, notEstimable } from '../../base/estimate.ts';
import { figureText } from '../../base/format-figure.ts';
import { plural, sentenceCase } from '../../base/words.ts';
import { marginOf } from '../../decide/verdict.ts';
import type { DotChart } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { GroupRate } from '../../estimate/group-rate.ts';
import { isProportion } from '../../estimate/proportion.ts';
import { shrunkenRanking } from '../../estimate/shrunken-ranking.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import type { Measure } from '../../tally/measures.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture, Entry } from '../entry.tsx';
import type { TextFile } from '../new-files.ts';
import { isThin, THIN_WORDS } from './enough.ts';
import { isRanked, type LevelRates, levelRates, rankedLevels } from './level-rates.ts';
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
  const shrunken = asked.order === 'ranked' ? shrunkenFigures(shown, context) : null;
  const chart = dotChart(measure, shown, { whole, shrunken });
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
    caption: `Dot: as logged. Bar: ${intervalWords(context)}.${shrunken === null ? '' : SHRUNKEN_WORDS}${line}${hollow}${rest}`,
  };
}

const SHRUNKEN_WORDS =
  ' Shrunken: drawn towards the common figure by how little it rests on, with its 90 % interval.';

/** Figures of the levels that may be ranked once luck is taken into account; null: none can be. */
function shrunkenFigures(
  levels: readonly LevelRates[],
  { season }: ReportContext,
): ReadonlyMap<GroupRate, Estimate> | null {
  const rates = levels.filter(isRanked).map(({ main }) => main);
  const [first] = rates;
  if (first === undefined || rates.length < 2) return null;
  const ranking = shrunkenRanking(rates, marginOf(first.measure, season.log.settings));
  if (ranking.refused !== null) return null;
  return new Map(
    ranking.levels.map(({ raw, shrunken }) => {
      const basis = { ...raw.rate, level: 0.9, method: 'shrunken', notes: ranking.notes };
      return [raw, { ...basis, ...shrunken, kind: 'estimated' }];
    }),
  );
}

function dotChart(
  measure: Measure,
  levels: readonly LevelRates[],
  {
    whole,
    shrunken,
  }: {
    readonly whole: GroupRate | undefined;
    readonly shrunken: ReadonlyMap<GroupRate, Estimate> | null;
  },
): DotChart {
  const style = measureStyle(measure);
  const rate = whole?.rate;
  const unranked = (main: GroupRate): Estimate =>
    notEstimable('It rests on too little to be ranked.', { ...main.rate, notes: [] });
  return {
    rows: levels.map(({ name, main }) => ({
      label: name,
      marks: [
        { figure: main.rate, n: countWords(main), thin: isThin(main) },
        ...(shrunken === null
          ? []
          : [{ figure: shrunken.get(main) ?? unranked(main), n: '', thin: false }]),
      ],
    })),
    series: shrunken === null ? [] : ['as logged', 'shrunken'],
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
