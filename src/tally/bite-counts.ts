import { remembered } from '../tidy/remember.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** What is counted of bites. */
export const BITE_COUNTS = ['bites', 'hooked', 'caught', 'released', 'kept', 'fights'] as const;
export type BiteCount = (typeof BITE_COUNTS)[number];

/** What each bite row of the season adds to each count; a tallied row stands for several bites. */
export function biteCounts(season: TidySeason): Readonly<Record<BiteCount, Float64Array>> {
  return remembered(season, { counts: 'bites' }, () => {
    const column = (holds: (bite: TidyBite) => boolean) =>
      Float64Array.from(season.bites, (bite) => (holds(bite) ? bite.count : 0));
    const hooked = column(({ outcome }) => outcome !== 'missed');
    return {
      bites: column(() => true),
      hooked,
      caught: column(({ outcome }) => outcome === 'released' || outcome === 'kept'),
      released: column(({ outcome }) => outcome === 'released'),
      kept: column(({ outcome }) => outcome === 'kept'),
      fights: hooked,
    };
  });
}
