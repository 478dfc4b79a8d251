import { figureText, PER_10_LINE_HOURS } from '../base/format-figure.ts';
import { formatHours } from '../base/format-number.ts';
import { DEFAULT_COVARIATES } from '../estimate/comparison.ts';
import type { GroupRate } from '../estimate/group-rate.ts';
import { ratesBy } from '../estimate/rates.ts';
import {
  type RankedLevel,
  type ShrunkenRanking,
  shrunkenRanking,
} from '../estimate/shrunken-ranking.ts';
import { levelPlace } from '../tally/factor-words.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { Question } from '../tally/question.ts';
import { remembered } from '../tidy/remember.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type AnsweredComparison, answerComparison } from './answer-comparison.ts';
import { loadSentence } from './load-sentence.ts';
import { respoolNow, stockForNextTrip } from './next-trip.ts';
import { hasSameChance, luckWords } from './same-chance.ts';
import type { VerdictWord } from './verdict.ts';

/** One answer of the season in a line, with the word that says how far it can be trusted. */
export interface Headline {
  /** `Line`, `Hook`, `Bait`, … */
  readonly about: string;
  readonly verdict: VerdictWord | 'ranked' | 'advice' | 'thin';
  readonly sentence: string;
}

/** What the headlines are made of. */
export interface HeadlineOptions extends Omit<Question, 'by'> {
  readonly level: number;
  readonly seed: number;
}

/** How sure the best of a ranking must be to be called clear. */
const SURE = 0.95;

/**
 * The season's five answers, one line each: line and hook, bait, when to respool, what to load;
 * worked out once for a season.
 */
export function headlines(season: TidySeason, options: HeadlineOptions): readonly Headline[] {
  const { only, from, to, level, seed } = options;
  return remembered(season, { headlines: { only, from, to, level, seed } }, () => [
    compared(season, options, { about: 'Line', factor: 'line_type' }),
    compared(season, options, { about: 'Hook', factor: 'hook_size' }),
    rankedFor(season, options, { about: 'Bait', factor: 'bait' }),
    respoolHeadline(season, options),
    loadHeadline(season, options),
  ]);
}

/** What a page has room for besides: leader and position. */
export function furtherHeadlines(season: TidySeason, options: HeadlineOptions): Headline[] {
  return [
    compared(season, options, { about: 'Leader', factor: 'leader_lb' }),
    rankedFor(season, options, { about: 'Position', factor: 'position' }),
  ];
}

function respoolHeadline(season: TidySeason, options: HeadlineOptions): Headline {
  const { wear, lines } = respoolNow(season, options);
  const about = 'Respool';
  const [most] = [...lines].sort((a, b) => b.line.fights - a.line.fights);
  if (most === undefined) {
    const sentence = wear.refused ?? 'No fight on line of known age is in the log.';
    return { about, verdict: 'thin', sentence };
  }
  const isAdvised = most.advice.kind === 'advised';
  const { spoolCost, lostFish } = most.prices;
  const money = (amount: number) => `${amount} ${season.log.settings.currency ?? ''}`.trim();
  const prices =
    isAdvised && spoolCost !== null && lostFish !== null
      ? ` At ${money(spoolCost)} a filling and ${money(lostFish)} a lost fish; other prices give other ages.`
      : '';
  return { about, verdict: isAdvised ? 'advice' : 'thin', sentence: most.sentence + prices };
}

function loadHeadline(season: TidySeason, options: HeadlineOptions): Headline {
  const { list } = stockForNextTrip(season, options);
  const verdict = list.refused === null ? 'advice' : 'thin';
  return { about: 'Load', verdict, sentence: loadSentence(list) };
}

interface Asked {
  readonly about: string;
  readonly factor: FactorName;
}

/** The two levels that were fished most, compared by the share of bites hooked. */
export function mostFishedPair(
  season: TidySeason,
  options: HeadlineOptions,
  factor: FactorName,
): readonly [string, string] | null {
  const rates = ratesBy(season, { ...options, by: [factor], measures: ['hookup_rate'] });
  const fished = rates
    .filter((row) => row.by[factor] !== NOT_RECORDED && row.bites > 0)
    .map((row, place) => ({ level: row.by[factor] ?? '', bites: row.bites, place }))
    .sort((a, b) => b.bites - a.bites || a.place - b.place)
    .slice(0, 2)
    .sort((a, b) => b.place - a.place);
  const [a, b] = fished;
  return a === undefined || b === undefined ? null : [a.level, b.level];
}

/** Compares the two most fished levels of a factor; null where the log has fewer than two. */
export function mainComparison(
  season: TidySeason,
  options: HeadlineOptions,
  factor: FactorName,
): AnsweredComparison | null {
  const levels = mostFishedPair(season, options, factor);
  if (levels === null) return null;
  const { only, from, to, level } = options;
  const parts = { only, from, to, level, factor, levels, adjust: DEFAULT_COVARIATES };
  const question = { ...parts, measure: 'hookup_rate' as const };
  return remembered(season, { comparison: question }, () =>
    answerComparison(season, question, levels),
  );
}

function compared(
  season: TidySeason,
  options: HeadlineOptions,
  { about, factor }: Asked,
): Headline {
  const answer = mainComparison(season, options, factor);
  if (answer === null) {
    return {
      about,
      verdict: 'thin',
      sentence: 'The log holds bites on one kind only, or on none.',
    };
  }
  return { about, verdict: answer.verdict.word, sentence: answer.sentence };
}

function rankedFor(
  season: TidySeason,
  options: HeadlineOptions,
  { about, factor }: Asked,
): Headline {
  const thin = (sentence: string): Headline => ({ about, verdict: 'thin', sentence });
  const rates = ratesBy(season, { ...options, by: [factor], measures: ['bites_per_line_hour'] });
  const known = rates.filter((row) => row.by[factor] !== NOT_RECORDED && isEnough(row));
  if (known.length < 2) return thin('Too few line-hours by kind to rank anything.');
  const ranking = shrunkenRanking(known, 0.1);
  const best = leaderOf(ranking);
  if (best === undefined) return thin(ranking.refused ?? 'Nothing to rank.');
  const place = levelPlace(factor, best.raw.by[factor] ?? '');
  const figure = figureText(best.raw.rate, PER_10_LINE_HOURS).long;
  const hours = formatHours(best.raw.denominator);
  const sure = hasSameChance(ranking)
    ? luckWords(`these ${known.length}`)
    : chanceWords(best.probabilityBest, known.length);
  const fastest =
    best === fastestOf(ranking)
      ? `As logged, bites came fastest ${place}: ${figure}`
      : `With luck allowed for, bites come fastest ${place}: as logged ${figure}`;
  return {
    about,
    verdict: 'ranked',
    sentence: `${fastest}, on ${hours} line-hours; ${sure}. Nothing is held equal.`,
  };
}

/** The first of a ranking; where luck explains all of it, the one that is ahead as logged. */
function leaderOf(ranking: ShrunkenRanking): RankedLevel | undefined {
  return hasSameChance(ranking) ? fastestOf(ranking) : ranking.levels[0];
}

/** The level with the highest rate as logged; of equal ones the first of the ranking. */
function fastestOf({ levels: [first, ...others] }: ShrunkenRanking): RankedLevel | undefined {
  const paceOf = ({ raw }: RankedLevel) => raw.numerator / raw.denominator;
  return first === undefined
    ? undefined
    : others.reduce((best, level) => (paceOf(level) > paceOf(best) ? level : best), first);
}

function chanceWords(probability: number, of: number): string {
  const chance = `the chance that it is the best of ${of} is`;
  return probability >= SURE
    ? `${chance} over 95\u202f%`
    : `${chance} about ${Math.floor(probability * 100)}\u202f%, too close to call yet`;
}

/** Rankings leave out what rests on fewer than 10 bites or 5 trips. Common practice, no source. */
function isEnough(row: GroupRate): boolean {
  return row.bites >= 10 && row.trips >= 5;
}
