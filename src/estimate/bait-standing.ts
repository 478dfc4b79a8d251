import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { BaitFilter } from './bait-trips.ts';
import { ratesBy } from './rates.ts';
import { type ShrunkenRanking, shrunkenRanking } from './shrunken-ranking.ts';
import { type StandardisedIndex, standardisedIndex } from './standardised-index.ts';

/** What the baits are ranked by. */
export const RANKED_BY = 'caught_per_line_hour';

/** How far below the best still counts as near it: a tenth of the rate. Common practice, no source. */
const NEAR = 0.1;

const HELD_EQUAL: readonly FactorName[] = ['reach', 'month'];

/** Baits against each other: adjusted for reach and month, and ranked fairly. */
export interface BaitStanding {
  /** Bites, and fish caught, per line-hour with reach and month held equal; 1 is the mean bait. */
  readonly adjusted: {
    readonly bites: StandardisedIndex;
    readonly caught: StandardisedIndex;
  };
  /** All baits by fish caught per line-hour, drawn towards their common rate. */
  readonly ranking: ShrunkenRanking;
  /** The same on each reach, for the day on which one is missing. */
  readonly byReach: readonly { readonly reach: string; readonly ranking: ShrunkenRanking }[];
}

/** How baits stand against each other; no fish is counted whose line-hours are not known. */
export function baitStanding(
  season: TidySeason,
  request: BaitFilter & { readonly level: number; readonly seed: number },
): BaitStanding {
  const index = (measure: 'bites_per_line_hour' | 'caught_per_line_hour') =>
    standardisedIndex(season, { ...request, by: 'bait', measure, adjust: HELD_EQUAL });
  return {
    adjusted: { bites: index('bites_per_line_hour'), caught: index('caught_per_line_hour') },
    ranking: rankedBaits(season, request),
    byReach: reachesFished(season, request).map((reach) => ({
      reach,
      ranking: rankedBaits(season, {
        ...request,
        only: { ...request.only, reach: [reach] },
      }),
    })),
  };
}

/**
 * Baits by fish caught per line-hour, shrunken, best first.
 * @param without baits that are not to be had.
 */
export function rankedBaits(
  season: TidySeason,
  request: BaitFilter & { readonly level: number; readonly seed: number },
  without: readonly string[] = [],
): ShrunkenRanking {
  const rates = ratesBy(season, { ...request, by: ['bait'], measures: [RANKED_BY] });
  const left = rates.filter(({ by }) => ![NOT_RECORDED, ...without].includes(by.bait ?? ''));
  return shrunkenRanking(left, NEAR);
}

function reachesFished(
  season: TidySeason,
  request: BaitFilter & { readonly level: number; readonly seed: number },
): string[] {
  const rates = ratesBy(season, { ...request, by: ['reach'], measures: [RANKED_BY] });
  return rates
    .filter(({ rate, by }) => rate.kind === 'estimated' && by.reach !== NOT_RECORDED)
    .map(({ by }) => by.reach ?? '');
}
