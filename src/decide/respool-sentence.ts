import type { Estimate } from '../base/estimate.ts';
import { type FigureStyle, figureText } from '../base/format-figure.ts';
import { formatDecimal, RANGE_DASH, THIN_SPACE } from '../base/format-number.ts';
import { levelWords, plural, sentenceCase } from '../base/words.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import { fromWearLaw, type WearLaw } from '../estimate/wear-power-law.ts';
import type { PowerLaw } from '../stats/power-law-fit.ts';
import type { AdvisedAge, RespoolAge } from './respool-age.ts';

/** What is usual, and no more than that. */
export const RESPOOL_HABIT =
  'Filling a reel anew every 10 to 15 trips in a busy season is common practice, no source.';

/** What a captain would say of one line type, and what he would add if asked. */
export interface RespoolWords {
  readonly answer: string;
  readonly more: readonly string[];
}

/** When to respool a line type, or why nobody knows yet. */
export function respoolWords(line: LineWear, advice: RespoolAge): RespoolWords {
  if (advice.kind === 'advised') return advisedWords(line, advice);
  if (!advice.isWear || line.law.kind === 'not-estimable') {
    return { answer: advice.reason, more: [] };
  }
  return { answer: wearSentence(line.lineType, line.law), more: [advice.reason] };
}

function advisedWords(line: LineWear, { age, ageFights, nearBest, law }: AdvisedAge): RespoolWords {
  const name = levelWords(line.lineType);
  const pace = line.fightsPerTrip;
  const trips =
    pace === null
      ? ''
      : `, which is ${plural(Math.max(1, Math.round(ageFights / pace)), 'trip')} at this log’s pace`;
  const from = formatDecimal(nearBest.lower, 0);
  const range = Number.isFinite(nearBest.upper)
    ? `From ${from} to ${formatDecimal(nearBest.upper, 0)} fights`
    : `From ${from} fights on`;
  const beyond =
    ageFights > law.oldestFights
      ? [
          `No ${name} in this log was ever so old (${plural(law.oldestFights, 'fight')} at most), so this is a guess beyond what was seen.`,
        ]
      : [];
  return {
    answer: `Respool ${name} after about ${wholeFights(age, ageFights)}${trips}.`,
    more: [`${range} the cost is within 5${THIN_SPACE}% of the least.`, ...beyond],
  };
}

/** `19 fights (17–25)`: an age is told in whole fights. */
function wholeFights(age: Estimate, fights: number): string {
  const about = plural(Math.max(1, Math.round(fights)), 'fight');
  if (age.kind === 'not-estimable') return about;
  const from = formatDecimal(age.lower, 0);
  const range = Number.isFinite(age.upper)
    ? `${from}${RANGE_DASH}${formatDecimal(age.upper, 0)}`
    : `${from} or more`;
  return `${about} (${range})`;
}

const PER_100: FigureStyle = { kind: 'rate', scale: 100, per: '100 fish' };

/** How breaks grow with age, in fish and not in money, with what resampled trips leave open. */
export function wearSentence(lineType: string, law: WearLaw): string {
  const young = 5;
  const old = Math.min(25, law.oldestFights);
  const name = sentenceCase(levelWords(lineType));
  if (old <= young) return `${name} breaks more often as it ages.`;
  const [first, last] = [young, old].map((fight) =>
    fromWearLaw(law, (drawn) => breaksIn(drawn, fight)),
  ) as [Estimate, Estimate];
  const isGuess = first.kind === 'not-estimable' || last.kind === 'not-estimable';
  const chance = (figure: Estimate, fight: number) =>
    isGuess ? guessWords(breaksIn(law, fight)) : figureText(figure, PER_100).short;
  return (
    `${name} breaks more often as it ages: of 100 fish fought on line in its ${ordinal(young)} fight ` +
    `about ${chance(first, young)} are broken off, in its ${ordinal(old)} about ${chance(last, old)}` +
    `${isGuess ? ', the best guess from too few breaks for an interval' : ''}.`
  );
}

/** Chance of a break in the a-th fight of a line. */
function breaksIn({ shape, theta }: PowerLaw, fight: number): number {
  return (fight / theta) ** shape - ((fight - 1) / theta) ** shape;
}

function guessWords(breaks: number): string {
  return formatDecimal(100 * breaks, breaks < 0.0995 ? 1 : 0);
}

function ordinal(count: number): string {
  const tens = Math.floor((count % 100) / 10);
  const ending = tens === 1 ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
  return `${count}${ending}`;
}
