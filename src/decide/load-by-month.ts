import type { TidySeason } from '../tidy/tidy-season.ts';
import { type LoadList, type LoadRequest, loadList } from './load-list.ts';

/** The list of one calendar month. */
export interface MonthLoads {
  /** 1 to 12. */
  readonly month: number;
  readonly trips: number;
  readonly list: LoadList;
}

/** The list for every calendar month of the log, in the order the season met them. */
export function loadByMonth(season: TidySeason, request: LoadRequest): MonthLoads[] {
  const months = new Set(season.trips.map(({ date }) => Number(date.slice(5, 7))));
  return [...months].flatMap((month) => {
    const list = loadList(season, { ...request, month });
    return list.refused === null ? [{ month, trips: list.lines[0]?.trips ?? 0, list }] : [];
  });
}
