import type { FactorName } from '../../src/tally/factors.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';

/** What a test cares about in a tally: counts, hours, and levels under their factors' names. */
export type TallyParts = Partial<Record<FactorName, string>> & {
  readonly trip_id: string;
  readonly bites?: number;
  readonly hooked?: number;
  readonly line_hours?: number;
};

/** A tally row in which every hooked fish was released and every bite met line-hours. */
export function makeTally({
  bites = 0,
  hooked = 0,
  line_hours = 0,
  ...rest
}: TallyParts): TallyRow {
  return {
    bites,
    hooked,
    caught: hooked,
    released: hooked,
    kept: 0,
    fights: hooked,
    bites_on_effort: bites,
    hooked_on_effort: hooked,
    caught_on_effort: hooked,
    released_on_effort: hooked,
    line_hours,
    effort_rows: line_hours > 0 ? 1 : 0,
    assumed_rows: 0,
    ...rest,
  };
}
