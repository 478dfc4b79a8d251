import { groupBy } from '../base/group-by.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { BaitFilter } from './bait-trips.ts';
import { BAIT_COUNTS, BAIT_RATES, type BaitCount } from './bait-yield.ts';
import type { GroupRate } from './group-rate.ts';
import { ratesBy } from './rates.ts';
import { type ShrunkenRanking, shrunkenRanking } from './shrunken-ranking.ts';
import { type StandardisedIndex, standardisedIndex } from './standardised-index.ts';

/** What the baits are ranked by. */
export const RANKED_BY = 'caught_per_line_hour';

const HELD_EQUAL: readonly FactorName[] = ['reach', 'month'];

export interface BaitRequest extends BaitFilter {
  readonly level: number;
  readonly seed: number;
}

/**
 * Bites, hookups and fish caught per line-hour by bait with reach and month held equal; 1 is the
 * mean bait. Intervals as for every standardised index.
 */
export function adjustedBaits(
  season: TidySeason,
  request: BaitRequest,
): Readonly<Record<BaitCount, StandardisedIndex>> {
  const index = (count: BaitCount) => {
    const measure = BAIT_RATES[count];
    return standardisedIndex(season, { ...request, by: 'bait', measure, adjust: HELD_EQUAL });
  };
  const [bites, hooked, caught] = BAIT_COUNTS.map(index) as [
    StandardisedIndex,
    StandardisedIndex,
    StandardisedIndex,
  ];
  return { bites, hooked, caught };
}

/**
 * Baits by fish caught per line-hour, drawn towards their common rate, best first.
 * @param margin how far below the best still counts as near it, as a share of the rate.
 */
export function rankedBaits(
  season: TidySeason,
  request: BaitRequest,
  margin: number,
): ShrunkenRanking {
  const rates = ratesBy(season, { ...request, by: ['bait'], measures: [RANKED_BY] });
  return shrunkenRanking(
    rates.filter(({ by }) => by.bait !== NOT_RECORDED),
    margin,
  );
}

/** Fish caught per line-hour of each bait on each reach, where both are recorded. */
export function baitsByReach(
  season: TidySeason,
  request: BaitRequest,
): ReadonlyMap<string, readonly GroupRate[]> {
  const rates = ratesBy(season, { ...request, by: ['reach', 'bait'], measures: [RANKED_BY] });
  const known = rates.filter(
    ({ by, rate }) =>
      by.reach !== NOT_RECORDED && by.bait !== NOT_RECORDED && rate.kind === 'estimated',
  );
  return groupBy(known, ({ by }) => by.reach ?? '');
}
