import type { TidySeason } from '../tidy/tidy-season.ts';
import { type LoadList, loadList } from './load-list.ts';

/** The list of one calendar month. */
export interface MonthLoads {
  /** 1 to 12. */
  readonly month: number;
  readonly trips: number;
  readonly list: LoadList;
}

/** A table of more baits than this is read by nobody. */
const MOST_BAITS = 12;

/**
 * The list for every calendar month of the log, in the order the season met them; of very many
 * baits, those used most.
 * @param whole the list of all months together.
 */
export function loadByMonth(season: TidySeason, whole: LoadList): MonthLoads[] {
  const { request } = whole;
  const months = new Set(season.trips.map(({ date }) => Number(date.slice(5, 7))));
  const bait = [...whole.lines]
    .sort((a, b) => (b.meanUsed ?? 0) - (a.meanUsed ?? 0))
    .slice(0, MOST_BAITS)
    .map((line) => line.bait);
  if (bait.length === 0) return [];
  const only = { ...request.only, bait };
  return [...months].flatMap((month) => {
    const list = loadList(season, { ...request, only, month });
    return list.refused === null ? [{ month, trips: list.lines[0]?.trips ?? 0, list }] : [];
  });
}
