import type { GroupRate } from '../../estimate/group-rate.ts';
import { isProportion } from '../../estimate/proportion.ts';

/** The least a figure must rest on to be ranked. Common practice, no source. */
export const ENOUGH = { bites: 10, trips: 5 } as const;

/** What the hollow marks mean, for captions. */
export const THIN_WORDS = `Hollow and grey: fewer than ${ENOUGH.bites} bites or ${ENOUGH.trips} trips, not ranked.`;

/**
 * Whether a figure rests on too little to be ranked: fewer than 10 bites (or hooked fish, where
 * those are what it divides by), or fewer than 5 trips.
 */
export function isThin(row: GroupRate): boolean {
  const counted = isProportion(row.measure) ? row.denominator : row.bites;
  return counted < ENOUGH.bites || row.trips < ENOUGH.trips;
}
