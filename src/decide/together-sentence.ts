import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { levelWords, listWords, plural, printable, sentenceCase } from '../base/words.ts';
import type { LevelBasis, LevelsTogether } from '../estimate/levels-together.ts';
import type { PairTogether } from '../estimate/pairs-together.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords, levelPlace } from '../tally/factor-words.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import { marginText } from './compare-sentence.ts';
import { MEASURE_WORDS } from './measure-words.ts';
import type { JudgedPair, TogetherVerdict } from './together-verdict.ts';

/** More pairs than this are counted, not named. */
const MOST_NAMED = 3;

/** What several levels come to together, in the parts that a page sets apart; no p-value. */
export interface TogetherWords {
  readonly answer: string;
  /** What was held equal and which levels were left out; may be empty. */
  readonly basis: string;
}

/** What several levels judged together come to, in parts. */
export function togetherWords(verdict: TogetherVerdict): TogetherWords {
  const { together } = verdict;
  const held = together.covariates.map(factorWords);
  const isHeld = together.refused === null && held.length > 0;
  const basis = [
    isHeld ? `Held equal: ${listWords(held)}.` : '',
    thinSentence(together.thin, together),
  ].filter((part) => part !== '');
  return { answer: answerOf(verdict), basis: basis.join(' ') };
}

/** The same in one text. */
export function togetherSentence(verdict: TogetherVerdict): string {
  const { factor, levels } = verdict.together;
  const { answer, basis } = togetherWords(verdict);
  const all = levels.length > 1 ? `all ${levels.length}` : 'all';
  return `${sentenceCase(factorWords(factor))}, ${all} together: ${answer} ${basis}`.trimEnd();
}

function answerOf(verdict: TogetherVerdict): string {
  const { together, word } = verdict;
  if (word === null) return `they cannot be judged. ${together.refused ?? ''}`.trim();
  if (word === 'tied') {
    const [first] = together.pairs;
    const reason = first?.difference.kind === 'not-estimable' ? ` ${first.difference.reason}` : '';
    return `this log cannot tell any two of them apart.${reason}`;
  }
  const answer = { clear: clearWords, alike: alikeWords, open: openWords }[word](verdict);
  const untold = verdict.pairs.filter((pair) => pair.word === 'tied').length;
  const aside = untold === 0 ? '' : ` ${plural(untold, 'pair')} cannot be told apart in this log.`;
  return answer + aside;
}

function clearWords({ together, pairs }: TogetherVerdict): string {
  const clear = pairs.filter((pair) => pair.word === 'clear');
  const judged = pairs.filter((pair) => pair.word !== 'tied').length;
  const stand = clear.length === 1 ? 'stands' : 'stand';
  const start =
    judged === 1
      ? 'the only pair that can be judged stands apart'
      : `${clear.length} of ${judged} pairs ${stand} apart, even with all of them looked at`;
  const named = clear.slice(0, MOST_NAMED).map((pair) => pairWords(pair, together));
  const left = clear.length - named.length;
  const rest = left === 0 ? '' : `; and ${plural(left, 'more pair')}`;
  return `${start}: ${named.join('; ')}${rest}.`;
}

/** `more bites are hooked on 7/0 hooks than on 5/0 hooks, +9 points (+4 to +13)`. */
function pairWords({ pair }: JudgedPair, { factor, measure }: LevelsTogether): string {
  const { happens } = MEASURE_WORDS[measure];
  const [placeA, placeB] = pair.levels.map((level) => levelPlace(factor, level));
  const figure = isProportion(measure) ? pair.difference : pair.ratio;
  const none = isProportion(measure) ? 0 : 1;
  const more = figure.kind === 'estimated' && figure.estimate > none ? 'more' : 'fewer';
  return `${more} ${happens} ${placeA} than ${placeB}, ${gapWords(pair, measure)}`;
}

/** `+9 points (+4 to +13)`, `1.4 times as many (1.1–1.8)`. */
function gapWords(pair: PairTogether, measure: Measure): string {
  if (isProportion(measure)) return figureText(pair.difference, POINTS).long;
  const { value, interval } = figureText(pair.ratio, TIMES);
  return `${value} times as many (${interval})`;
}

function alikeWords({ together, margin }: TogetherVerdict): string {
  return (
    `for all that matters they are alike. Every pair lies within the ${marginText(together, { margin })} that would ` +
    'matter, even with all of them looked at.'
  );
}

function openWords({ together, pairs, isJointDifference }: TogetherVerdict): string {
  const judged = pairs.filter((pair) => pair.word !== 'tied').length;
  const start =
    judged === 1
      ? 'too close to call yet; only one pair can be judged.'
      : `too close to call yet. With all ${judged} pairs looked at, none stands apart.`;
  return isJointDifference && together.levels.length > 2
    ? `${start} Taken together they do not look alike, but the log does not say yet which differ.`
    : start;
}

/** `Left out, with too little to judge: squid (3 bites on 2 trips).` */
function thinSentence(thin: readonly LevelBasis[], { measure }: LevelsTogether): string {
  if (thin.length === 0) return '';
  const { unit, oneUnit } = countedWords(measure);
  const named = thin.map(
    ({ level, bites, trips }) =>
      `${printable(levelWords(level))} (${plural(bites, oneUnit, unit)} on ${plural(trips, 'trip')})`,
  );
  return `Left out, with too little to judge: ${listWords(named, MOST_NAMED)}.`;
}

/** What levels are counted by: the denominator of a share, the events of a rate. */
export function countedWords(measure: Measure): {
  readonly unit: string;
  readonly oneUnit: string;
} {
  if (isProportion(measure)) return MEASURE_WORDS[measure];
  const { numerator } = MEASURES[measure];
  if (numerator === 'bites') return { unit: 'bites', oneUnit: 'bite' };
  return { unit: `fish ${numerator}`, oneUnit: `fish ${numerator}` };
}
