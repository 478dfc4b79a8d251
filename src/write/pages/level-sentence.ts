import type { Estimated } from '../../base/estimate.ts';
import { figureText } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { listWords, plural, sentenceCase } from '../../base/words.ts';
import { factorWords, levelPlace } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import type { Measure } from '../../tally/measures.ts';
import { ENOUGH } from './enough.ts';
import { isRanked, type LevelRates, rankedLevels } from './level-rates.ts';
import { levelName, shortLevel } from './level-words.ts';
import { measureStyle } from './report-context.ts';

interface Ends {
  readonly start: string;
  readonly most: string;
  readonly least: string;
}

const share = (start: string): Ends => ({
  start: `${start} was`,
  most: 'largest',
  least: 'smallest',
});
const pace = (start: string): Ends => ({ start, most: 'fastest', least: 'slowest' });

const ENDS: Readonly<Record<Measure, Ends>> = {
  hookup_rate: share('the share of bites hooked'),
  caught_rate: share('the share of hooked fish caught'),
  release_rate: share('the share of hooked fish released'),
  bite_to_boat: share('the share of bites that ended at the boat'),
  bites_per_line_hour: pace('bites came'),
  hookups_per_line_hour: pace('fish were hooked'),
  caught_per_line_hour: pace('fish were caught'),
  released_per_line_hour: pace('fish were released'),
};

/**
 * What the levels of one factor show, in a sentence: the highest and the lowest figure among those
 * that rest on enough, and whether their intervals lie apart; or why nothing can be said.
 */
export function levelSentence(
  factors: readonly FactorName[],
  levels: readonly LevelRates[],
): string {
  const ranked = rankedLevels(levels).filter(isRanked);
  const [top] = ranked;
  const bottom = ranked.at(-1);
  const nouns = listWords(factors.map(factorWords));
  if (levels.every((level) => level.isMissing)) {
    return `The log does not say the ${nouns}, so there is nothing to tell apart here.`;
  }
  if (top === undefined || bottom === undefined) return nothingYet(levels, nouns);
  const { measure } = top.main;
  if (top === bottom) {
    const others = levels.length === 1 ? 'is the only one there is' : 'alone rests on enough';
    return `${sentenceCase(shortLevel(top.name))} ${others}: ${onItsOwn(top)}.`;
  }
  const { start, most, least } = ENDS[measure];
  const [high, low] = [rateOf(top), rateOf(bottom)];
  const style = measureStyle(measure);
  if (high.estimate === low.estimate) {
    const figure = figureText(high, style).value;
    return `${sentenceCase(start)} the same wherever it rests on enough: ${figure}.`;
  }
  return (
    `${sentenceCase(start)} ${most} ${placeOf(factors, top)}, ${figureText(high, style).long}, and ` +
    `${least} ${placeOf(factors, bottom)}, ${figureText(low, style).short}. ` +
    apartWords(high, low, ranked.length)
  );
}

function nothingYet(levels: readonly LevelRates[], nouns: string): string {
  const [first] = levels;
  if (levels.every(({ main }) => main.rate.kind === 'not-estimable')) {
    return first?.main.rate.kind === 'not-estimable'
      ? first.main.rate.reason
      : 'Nothing is logged.';
  }
  return (
    `No ${nouns} has enough behind it to judge yet: it takes ` +
    `${plural(ENOUGH.bites, 'bite')} over ${plural(ENOUGH.trips, 'trip')}.`
  );
}

/** `62 % of bites hooked (54–69)` in the words of its measure. */
function onItsOwn(level: LevelRates): string {
  const { measure } = level.main;
  const { start } = ENDS[measure];
  return `${start} ${figureText(level.main.rate, measureStyle(measure)).long}`;
}

function placeOf(factors: readonly FactorName[], level: LevelRates): string {
  return factors
    .map((factor) => {
      const words = shortLevel(level.by[factor] ?? '');
      return factor === 'species' ? `for ${levelName(factor, words)}` : levelPlace(factor, words);
    })
    .join(' ');
}

function rateOf({ main }: LevelRates): Estimated {
  if (main.rate.kind === 'estimated') return main.rate;
  throw new Error(`A ranked level has no figure: ${main.rate.reason}`);
}

/** The ends of a list are picked after looking, so that intervals apart are no test of them. */
function apartWords(high: Estimated, low: Estimated, listed: number): string {
  if (high.lower <= low.upper) return 'Their intervals overlap.';
  return listed === 2
    ? 'Their intervals lie apart.'
    : `Their intervals lie apart; they are the two ends of ${formatCount(listed)}, picked after looking.`;
}
