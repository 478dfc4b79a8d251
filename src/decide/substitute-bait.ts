import { estimated } from '../base/estimate.ts';
import { figureText, PER_10_LINE_HOURS } from '../base/format-figure.ts';
import { levelWords, listWords, sentenceCase } from '../base/words.ts';
import { type BaitRequest, baitsByReach, RANKED_BY } from '../estimate/bait-standing.ts';
import type { GroupRate } from '../estimate/group-rate.ts';
import {
  type RankedLevel,
  type ShrunkenRanking,
  shrunkenRanking,
} from '../estimate/shrunken-ranking.ts';
import { levelPlace } from '../tally/factor-words.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { marginOf } from './verdict.ts';

/** What to put out on one reach, best first, when a bait is not to be had. */
export interface Substitute extends Choice {
  readonly reach: string;
  readonly ranking: ShrunkenRanking;
  readonly sentence: string;
}

/** How far the log can choose: one that is surely best, some that lead, or any of them. */
export interface Choice {
  readonly sureness: 'best' | 'lead' | 'alike' | 'only' | 'none';
  /** The baits chosen, the first to take first; none where nothing was fished enough. */
  readonly baits: readonly string[];
}

/** A bait that came to less on a reach says little of it. Common practice, no source. */
const FEWEST_BITES = 10;
const FEWEST_TRIPS = 5;

/** How sure the best of a ranking must be to be named alone. Common practice, no source. */
const SURE = 0.8;

/**
 * "No mullet today: what instead, and where?" For each reach the other baits by fish caught per
 * line-hour there, drawn towards their common rate, best first. Baits with fewer than 10 bites or 5
 * trips on a reach are left out of its ranking.
 * @param missing the baits that are not to be had; none for the plain ranking.
 */
export function substitutes(
  season: TidySeason,
  request: BaitRequest,
  missing: readonly string[],
): Substitute[] {
  const margin = marginOf(RANKED_BY, season.log.settings);
  return [...baitsByReach(season, request)].map(([reach, rates]) => {
    // Most fished first, which is the order where the ranking cannot part them.
    const able = rates
      .filter(
        ({ by, bites, trips }) =>
          bites >= FEWEST_BITES && trips >= FEWEST_TRIPS && !missing.includes(by.bait ?? ''),
      )
      .sort((a, b) => b.denominator - a.denominator);
    const ranking = shrunkenRanking(able, margin);
    const choice = choiceOf(ranking, able);
    return { reach, ranking, ...choice, sentence: choiceSentence(reach, choice, ranking) };
  });
}

function choiceOf({ levels }: ShrunkenRanking, able: readonly GroupRate[]): Choice {
  const baitOf = ({ by }: GroupRate) => by.bait ?? '';
  const [only] = able;
  const [best] = levels;
  if (only === undefined) return { sureness: 'none', baits: [] };
  if (able.length === 1) return { sureness: 'only', baits: [baitOf(only)] };
  if (best === undefined) return { sureness: 'alike', baits: able.map(baitOf) };
  if (best.probabilityBest >= SURE) return { sureness: 'best', baits: [baitOf(best.raw)] };
  const near = levels.filter(
    ({ probabilityNearBest }) => probabilityNearBest >= best.probabilityNearBest / 2,
  );
  const sureness = near.length === levels.length ? 'alike' : 'lead';
  return { sureness, baits: near.map(({ raw }) => baitOf(raw)) };
}

function choiceSentence(
  reach: string,
  { sureness, baits }: Choice,
  { levels }: ShrunkenRanking,
): string {
  const where = sentenceCase(levelPlace('reach', reach));
  const names = listWords(baits.map(levelWords));
  const [best] = levels;
  const figure =
    best === undefined
      ? ''
      : `, ${figureText(shrunkenFigure(best), PER_10_LINE_HOURS).long} caught`;
  const said = {
    none: 'no bait was fished enough to choose by.',
    only: `${names}, the only one that was fished enough.`,
    best: `${names}${figure}.`,
    lead: `${names} first, though it is too close to call.`,
    alike: `${names} (most fished first); the log cannot tell them apart, so go by price and supply.`,
  };
  return `${where}: ${said[sureness]}`;
}

/** A shrunken rate as a figure, to be written like any other. */
export function shrunkenFigure({ raw, shrunken }: RankedLevel) {
  const { n, exposure } = raw.rate;
  const basis = { level: 0.9, method: 'empirical-bayes', n, exposure, notes: [] };
  return estimated({ ...basis, ...shrunken });
}
