import type { Estimate } from '../base/estimate.ts';
import { formatDecimal, RANGE_DASH, THIN_SPACE } from '../base/format-number.ts';
import { levelWords, plural, sentenceCase } from '../base/words.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import type { WearLaw } from '../estimate/wear-power-law.ts';
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

/** How breaks grow with age, in fish and not in money. */
export function wearSentence(lineType: string, law: WearLaw): string {
  const young = 5;
  const old = Math.min(25, law.oldestFights);
  const name = sentenceCase(levelWords(lineType));
  if (old <= young) return `${name} breaks more often as it ages.`;
  const chance = (fight: number) => breaksPer100(law, fight);
  return (
    `${name} breaks more often as it ages: of 100 fish fought on line in its ${ordinal(young)} fight ` +
    `about ${chance(young)} are broken off, in its ${ordinal(old)} about ${chance(old)}.`
  );
}

function breaksPer100({ shape, theta }: WearLaw, fight: number): string {
  const breaks = (fight / theta) ** shape - ((fight - 1) / theta) ** shape;
  return formatDecimal(100 * breaks, breaks < 0.0995 ? 1 : 0);
}

function ordinal(count: number): string {
  const tens = Math.floor((count % 100) / 10);
  const ending = tens === 1 ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
  return `${count}${ending}`;
}
