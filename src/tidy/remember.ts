import type { TidySeason } from './tidy-season.ts';

const kept = new WeakMap<TidySeason, Map<string, unknown>>();

/**
 * What `make` gives for a season, worked out once for each key and then kept with the season: a
 * report asks the same of one log many times. `make` must depend on the season and the key alone.
 */
export function remembered<Result>(season: TidySeason, key: object, make: () => Result): Result {
  const ofSeason = kept.get(season) ?? new Map<string, unknown>();
  kept.set(season, ofSeason);
  const name = JSON.stringify(key);
  if (!ofSeason.has(name)) ofSeason.set(name, make());
  return ofSeason.get(name) as Result;
}
