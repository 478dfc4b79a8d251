import { MOON_EIGHTHS } from '../tidy/moon.ts';
import { LIGHTS } from '../tidy/sunlight.ts';
import { compare } from '../tidy/tidy-trips.ts';

/** Says which of two levels comes first in a table. */
export type LevelOrder = (a: string, b: string) => number;

/** What stands for an empty cell wherever levels are shown; it always comes last. */
export const NOT_RECORDED = 'not recorded';

/** Levels in a stated order, others after them by code unit. */
export function inOrderOf(levels: readonly string[]): LevelOrder {
  const place = new Map(levels.map((level, at) => [level, at]));
  return missingLast((a, b) => {
    const placeA = place.get(a) ?? levels.length;
    const placeB = place.get(b) ?? levels.length;
    return placeA - placeB || compare(a, b);
  });
}

export const byText: LevelOrder = missingLast(compare);

export const byNumber: LevelOrder = missingLast((a, b) => Number(a) - Number(b) || compare(a, b));

/** Trade order of hooks, small to large: 2, 1, 1/0, 5/0. Common practice, no source. */
export const byHookSize: LevelOrder = missingLast(
  (a, b) => hookRank(a) - hookRank(b) || compare(a, b),
);

export const byLight: LevelOrder = inOrderOf(LIGHTS);
export const byMoon: LevelOrder = inOrderOf(MOON_EIGHTHS);

function hookRank(size: string): number {
  const [, whole, zero] = /^(\d+)(\/0)?$/.exec(size) ?? [];
  if (whole === undefined) return Number.MAX_SAFE_INTEGER;
  return zero === undefined ? 1 - Number(whole) : Number(whole);
}

function missingLast(order: LevelOrder): LevelOrder {
  return (a, b) => {
    if (a === NOT_RECORDED || b === NOT_RECORDED) {
      return Number(a === NOT_RECORDED) - Number(b === NOT_RECORDED);
    }
    return order(a, b);
  };
}
