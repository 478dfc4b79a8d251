import { adjustedBaits, RANKED_BY, rankedBaits } from '../estimate/bait-standing.ts';
import { baitTrips } from '../estimate/bait-trips.ts';
import { type BaitCount, type BaitYield, baitYields } from '../estimate/bait-yield.ts';
import type { RankedLevel, ShrunkenRanking } from '../estimate/shrunken-ranking.ts';
import type { StandardisedIndex } from '../estimate/standardised-index.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { loadByMonth, type MonthLoads } from './load-by-month.ts';
import { type LoadLine, type LoadList, type LoadRequest, loadList } from './load-list.ts';
import { type Substitute, substitutes } from './substitute-bait.ts';
import { marginOf } from './verdict.ts';

/** What is asked of the bait of a log. */
export interface StockRequest extends LoadRequest {
  readonly level: number;
  readonly seed: number;
  /** Baits that are not to be had. */
  readonly without: readonly string[];
}

/** One bait: what it brings, how it stands, how many to load. */
export interface BaitStock {
  readonly bait: string;
  readonly brings: BaitYield;
  /** Its line of the list; null where there is no list. */
  readonly line: LoadLine | null;
  /** Its place in the ranking by fish caught per line-hour; null where it has none. */
  readonly standing: RankedLevel | null;
}

/** What each bait brings, how many to load, and what to put out in its place. */
export interface Stock {
  readonly list: LoadList;
  readonly byMonth: readonly MonthLoads[];
  readonly baits: readonly BaitStock[];
  readonly ranking: ShrunkenRanking;
  /** Per line-hour with reach and month held equal, 1 the mean bait. */
  readonly adjusted: Readonly<Record<BaitCount, StandardisedIndex>>;
  readonly substitutes: readonly Substitute[];
}

/** Answers all that `stock` and the bait page ask, from one reading of the log. */
export function stockOf(season: TidySeason, request: StockRequest): Stock {
  const left = withoutBaits(season, request);
  const list = loadList(season, left);
  const ranking = rankedBaits(season, request, marginOf(RANKED_BY, season.log.settings));
  const baits = baitYields(season, baitTrips(season, request), request).map(
    (brings): BaitStock => ({
      bait: brings.bait,
      brings,
      line: list.lines.find(({ bait }) => bait === brings.bait) ?? null,
      standing: ranking.levels.find(({ raw }) => raw.by.bait === brings.bait) ?? null,
    }),
  );
  return {
    list,
    byMonth: loadByMonth(season, list),
    baits,
    ranking,
    adjusted: adjustedBaits(season, request),
    substitutes: substitutes(season, request, request.without),
  };
}

/** The list leaves out what is not to be had; what it would have been used for is not made up. */
function withoutBaits(season: TidySeason, request: StockRequest): LoadRequest {
  if (request.without.length === 0) return request;
  const all = baitTrips(season, request).map(({ bait }) => bait);
  const bait = all.filter((one) => !request.without.includes(one));
  return { ...request, only: { ...request.only, bait } };
}
