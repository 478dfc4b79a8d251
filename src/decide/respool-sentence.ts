import { figureText } from '../base/format-figure.ts';
import { formatDecimal, RANGE_DASH } from '../base/format-number.ts';
import { levelWords, plural, sentenceCase } from '../base/words.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import type { WearLaw } from '../estimate/wear-power-law.ts';
import type { AdvisedAge, RespoolAge } from './respool-age.ts';

/** What is usual, and no more than that. */
export const RESPOOL_HABIT =
  'Filling a reel anew every 10 to 15 trips in a busy season is common practice, no source.';

/** What a captain would say of one line type: when to respool it, or why nobody knows yet. */
export function respoolSentence(line: LineWear, advice: RespoolAge): string {
  if (advice.kind === 'advised') return advisedSentence(line, advice);
  if (!advice.isWear || line.law.kind === 'not-estimable') return advice.reason;
  return `${wearSentence(line.lineType, line.law)} ${advice.reason}`;
}

function advisedSentence(line: LineWear, { age, ageFights, nearBest, law }: AdvisedAge): string {
  const name = levelWords(line.lineType);
  const fights = figureText(age, { kind: 'number', unit: 'fights' });
  const pace = line.fightsPerTrip;
  const trips =
    pace === null
      ? ''
      : `, which is ${plural(Math.max(1, Math.round(ageFights / pace)), 'trip')} at this log’s pace`;
  const flat = Number.isFinite(nearBest.upper)
    ? `From ${formatDecimal(nearBest.lower, 0)} to ${formatDecimal(nearBest.upper, 0)} fights the cost is within 5 % of the least.`
    : `From ${formatDecimal(nearBest.lower, 0)} fights on the cost is within 5 % of the least.`;
  const beyond =
    ageFights > law.oldestFights
      ? ` No ${name} in this log was ever so old (${law.oldestFights} fights at most), so this is a guess beyond what was seen.`
      : '';
  return `Respool ${name} after about ${fights.short}${trips}. ${flat}${beyond}`;
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

/** An age in fights told in trips at a pace, with its interval: `10 trips (8–13)`. */
export function inTrips(
  limits: { readonly estimate: number; readonly lower: number; readonly upper: number },
  fightsPerTrip: number,
): string {
  const trips = (fights: number) => formatDecimal(fights / fightsPerTrip, 0);
  const { estimate, lower, upper } = limits;
  const range = Number.isFinite(upper)
    ? `${trips(lower)}${RANGE_DASH}${trips(upper)}`
    : `${trips(lower)} or more`;
  return `${plural(Math.round(estimate / fightsPerTrip), 'trip')} (${range})`;
}
