import type { Estimate, Interval } from '../base/estimate.ts';
import { type FigureStyle, figureText } from '../base/format-figure.ts';
import { formatCount } from '../base/format-number.ts';
import { plural } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { isProportion } from '../estimate/proportion.ts';
import type { Measure } from '../tally/measures.ts';
import type { PooledMeasure } from './pool-rates.ts';

/** What a page or a table asks of each measure. */
export const POOL_QUESTIONS: Readonly<Record<Measure, string>> = {
  hookup_rate: 'How many bites are hooked?',
  caught_rate: 'How many hooked fish are caught?',
  release_rate: 'How many hooked fish are released?',
  bite_to_boat: 'How many bites end at the boat?',
  bites_per_line_hour: 'How often do they bite?',
  hookups_per_line_hour: 'How often is a fish hooked?',
  caught_per_line_hour: 'How often is a fish caught?',
  released_per_line_hour: 'How often is a fish released?',
};

/** In place of a pooled figure that tells nothing. */
export const ANYTHING = 'could be anything';

/**
 * Whether an interval reaches so far that no reader should take its middle for an answer: a share from
 * hardly any to nearly all, a rate over more than a thousandfold. Two packages that differ bring it about.
 */
export function tellsNothing(limits: Estimate | Interval, measure: Measure): boolean {
  if ('kind' in limits && limits.kind !== 'estimated') return false;
  const { lower, upper } = limits;
  return isProportion(measure) ? lower < 0.01 && upper > 0.99 : upper > 1000 * lower;
}

/** The pooled answer in a sentence. */
export function poolSentence({ measure, studies, random }: PooledMeasure): string {
  const { style, name } = MEASURE_WORDS[measure];
  const packages = plural(studies.length, 'package');
  if (tellsNothing(random, measure)) {
    return `Over ${packages}, ${name} could be anything: they differ too much for one figure. Read them one by one.`;
  }
  const head = `Over ${packages}, ${name} ${name.includes(' per ') ? 'are' : 'is'}`;
  if (random.kind === 'estimated') return `${head} ${shortFigure(random, style)}.`;
  return 'Only one package holds it, so there is nothing to pool it with.';
}

/** How much the packages differ, and where one more would lie. */
export function differenceSentences(pooled: PooledMeasure, level: number): string[] {
  const { heterogeneity, prediction, studies, measure } = pooled;
  if (heterogeneity === null) return [];
  const { style } = MEASURE_WORDS[measure];
  const share = heterogeneity.I2fromQpercent;
  const differ =
    share === 0
      ? 'The packages differ no more than chance would make them.'
      : `Of the differences between the packages, ${formatCount(Math.round(share))} % is more than ` +
        `chance (Q ${heterogeneity.Q.toFixed(1)} on ${heterogeneity.df}).`;
  const few =
    studies.length < FEW
      ? ['So few packages hardly tell how much boats differ; the interval is wide for that reason.']
      : [];
  if (prediction === null) return [differ, ...few];
  if (tellsNothing(prediction, measure)) {
    return [differ, 'One more boat of their kind could lie anywhere.', ...few];
  }
  const middle = (prediction.lower + prediction.upper) / 2;
  const basis = { level, method: 'prediction', n: studies.length, exposure: null, notes: [] };
  const range = figureText({ kind: 'estimated', estimate: middle, ...prediction, ...basis }, style);
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  const next = `One more boat of their kind would lie within ${range.interval}${percent(style)}${per}.`;
  return [differ, next, ...few];
}

/** The package without which the pooled figure would move most. */
export function leaveOneOutSentence({ leaveOneOut, random, measure }: PooledMeasure): string[] {
  if (random.kind !== 'estimated' || tellsNothing(random, measure)) return [];
  const { style } = MEASURE_WORDS[measure];
  const moved = leaveOneOut.flatMap(({ without, pooled }) =>
    pooled.kind === 'estimated'
      ? [{ without, pooled, by: Math.abs(Math.log(pooled.estimate / random.estimate)) }]
      : [],
  );
  const [most] = moved.sort((a, b) => b.by - a.by);
  if (most === undefined) return [];
  const figure = tellsNothing(most.pooled, measure) ? ANYTHING : shortFigure(most.pooled, style);
  return [`It moves most without ${most.without}: ${figure}.`];
}

/** What a row counts, for people: `1,281 of 2,000 hooked fish`, `2,236 in 4,922 line-hours`. */
export function countWords({ measure, rate }: { measure: Measure; rate: Counts }): string {
  const { unit } = MEASURE_WORDS[measure];
  const join = isProportion(measure) ? 'of' : 'in';
  return `${formatCount(rate.numerator)} ${join} ${formatCount(rate.denominator)} ${unit}`;
}

interface Counts {
  readonly numerator: number;
  readonly denominator: number;
}

/** Below this many packages τ² is mostly guesswork; common practice, no source. */
const FEW = 5;

function shortFigure(figure: Parameters<typeof figureText>[0], style: FigureStyle): string {
  return figureText(figure, style).long;
}

function percent(style: FigureStyle): string {
  return style.kind === 'percent' ? ' %' : '';
}
