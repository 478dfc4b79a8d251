import type { Estimate } from '../base/estimate.ts';
import { figureText } from '../base/format-figure.ts';
import { listWords, plural } from '../base/words.ts';
import type { Comparison } from '../estimate/comparison.ts';
import { isProportion } from '../estimate/proportion.ts';
import { levelPlace } from '../tally/factor-words.ts';
import { MEASURES } from '../tally/measures.ts';
import { MEASURE_WORDS } from './measure-words.ts';
import { decidingFigure } from './verdict.ts';

interface NothingWords {
  readonly answer: string;
  readonly next: string | null;
}

/**
 * Why two levels that nothing ties together still have no figure to judge by: one of them, or both,
 * had no bite, or no line-hours. How much more fishing would settle it cannot be planned from none.
 */
export function nothingToCompare(comparison: Comparison): NothingWords {
  const words = isProportion(comparison.measure) ? withoutShare : withoutRatio;
  return words(comparison) ?? unsaid(comparison);
}

/** A share of nothing is none. */
function withoutShare({ factor, levels, measure, lenses }: Comparison): NothingWords | null {
  const { a, b, bites } = lenses.as_logged;
  const empty = levels.filter((_, at) => [a, b][at]?.kind === 'not-estimable');
  const [first] = empty;
  if (first === undefined) return null;
  const { oneUnit, unit } = MEASURE_WORDS[measure];
  const places = empty.map((level) => levelPlace(factor, level));
  const other = levels.find((level) => !empty.includes(level));
  const beside =
    other === undefined ? '' : `, and ${plural(bites, oneUnit, unit)} ${levelPlace(factor, other)}`;
  return {
    answer: `Nothing to compare yet: no ${oneUnit} is logged ${places.join(' or ')}${beside}.`,
    next: untilSomeCome(places),
  };
}

/** Of none at all nothing is so many times as many. */
function withoutRatio({ factor, levels, measure, lenses }: Comparison): NothingWords | null {
  const { a, b } = lenses.as_logged;
  const empty = levels.filter((_, at) => isZero([a, b][at]));
  if (empty.length === 0 || a.kind === 'not-estimable' || b.kind === 'not-estimable') return null;
  const { style } = MEASURE_WORDS[measure];
  const { numerator } = MEASURES[measure];
  const places = empty.map((level) => levelPlace(factor, level));
  const none = numerator === 'bites' ? 'No bite came' : `No fish was ${numerator}`;
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  return {
    answer:
      `${none} ${places.join(' or ')}, so how many times as many there are cannot be said: ` +
      `${figureText(a, style).short} ${levelPlace(factor, levels[0])} against ` +
      `${figureText(b, style).short} ${levelPlace(factor, levels[1])}${per}.`,
    next: untilSomeCome(places),
  };
}

function unsaid(comparison: Comparison): NothingWords {
  const { factor, levels, lenses, measure } = comparison;
  const [placeA, placeB] = levels.map((level) => levelPlace(factor, level));
  const figure = decidingFigure(lenses.as_logged, measure);
  const reason = figure.kind === 'not-estimable' ? ` ${figure.reason}` : '';
  return {
    answer: `This log cannot tell what happens ${placeA} from what happens ${placeB}.${reason}`,
    next: null,
  };
}

function untilSomeCome(places: readonly string[]): string {
  return `How much more fishing would settle it cannot be said before some have come ${listWords(places)}.`;
}

function isZero(figure: Estimate | undefined): boolean {
  return figure?.kind === 'estimated' && figure.estimate === 0;
}
