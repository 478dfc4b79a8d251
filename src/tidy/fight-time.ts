import { groupBy } from '../base/group-by.ts';
import type { FightClears } from '../settings/settings.ts';
import type { JoinedBite } from './join-bites.ts';
import type { PlacedSoak } from './place-soaks.ts';

/** A stretch for which one soak was not fishing because a fish was on. */
export interface Fight {
  /** Index of the bite. */
  readonly bite: number;
  readonly hours: number;
}

/** Hours shorter than this are what rounding left of none; the log counts in minutes. */
const ROUNDING_HOURS = 1e-9;

/** Hours still fished once fights are off: never below zero, and no rounding taken for fishing. */
export function hoursLeft(hours: number): number {
  return hours < ROUNDING_HOURS ? 0 : hours;
}

/**
 * The fights that come off each soak's hours: its own, or those of its side or of the whole boat
 * where the crew clears lines. A fish without fight minutes takes nothing off; fight minutes come
 * off whole, also where they run past the soak's end.
 * @returns one list per soak, in the soaks' order.
 */
export function fightsOnSoaks(
  soaks: readonly PlacedSoak[],
  bites: readonly JoinedBite[],
  clears: FightClears,
): readonly (readonly Fight[])[] {
  const fights: Fight[][] = soaks.map(() => []);
  if (clears === 'none') return fights;
  const soaksOfTrip = groupBy(soaks.keys(), (at) => soaks[at]?.trip_id);
  for (const [index, bite] of bites.entries()) {
    if (bite.outcome === 'missed' || bite.fight_min === null) continue;
    const fight = { bite: index, hours: (bite.fight_min / 60) * bite.count };
    const cleared =
      clears === 'line'
        ? []
        : (soaksOfTrip.get(bite.trip_id) ?? []).filter((at) =>
            isCleared(soaks[at], bite, clears === 'side'),
          );
    const own = bite.soak === null ? [] : [bite.soak];
    for (const at of new Set([...own, ...cleared])) fights[at]?.push(fight);
  }
  return fights;
}

/** Other lines are cleared when they were in the water at the minute of the bite. */
function isCleared(soak: PlacedSoak | undefined, bite: JoinedBite, sameSide: boolean): boolean {
  if (soak?.start == null || soak.end === null || bite.instant === null) return false;
  if (sameSide && soak.side !== bite.side) return false;
  return soak.start <= bite.instant && bite.instant <= soak.end;
}
