/**
 * The typed rows of a log: one interface a file, one field a column, under the column's own name.
 * Numbers are in the unit of the name; `null` is "not recorded"; clock times are minutes after the
 * midnight that begins their own day (0 to 1439), still in the boat's wall clock.
 */

/** Every row knows the line it stood on. */
export interface Placed {
  readonly line: number;
}

export interface TripRow extends Placed {
  readonly trip_id: string;
  /** ISO 8601 calendar date. */
  readonly date: string;
  readonly lines_in: number | null;
  readonly lines_out: number | null;
  readonly hours_fished: number | null;
  readonly lines_fished: number | null;
  readonly vessel: string | null;
  readonly trip_kind: string | null;
  readonly area: string | null;
  readonly lat: number | null;
  readonly lon: number | null;
  readonly depth_m: number | null;
  readonly wind_kn: number | null;
  readonly wind_from_deg: number | null;
  readonly wave_m: number | null;
  readonly current_kn: number | null;
  readonly current_to_deg: number | null;
  readonly water_temp_c: number | null;
  readonly clarity: string | null;
  readonly sky: string | null;
  readonly anglers: number | null;
  readonly notes: string | null;
}

export interface SoakRow extends Placed {
  readonly trip_id: string;
  readonly position: string;
  readonly bait: string | null;
  readonly rod: string | null;
  readonly line_type: string | null;
  readonly line_class_lb: number | null;
  readonly hook_size: string | null;
  readonly hook_model: string | null;
  readonly leader_lb: number | null;
  readonly time_in: number | null;
  readonly time_out: number | null;
  readonly hours: number | null;
  /** 1 where the cell is empty. */
  readonly baits_used: number;
  readonly notes: string | null;
}

export const OUTCOMES = ['missed', 'lost', 'released', 'kept'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const LOST_TO = [
  'pulled',
  'line_broke',
  'leader_parted',
  'hook_failed',
  'predator',
  'other',
] as const;
export type LostTo = (typeof LOST_TO)[number];

export const HOOKED_IN = ['corner', 'mouth', 'deep', 'foul'] as const;
export type HookedIn = (typeof HOOKED_IN)[number];

export const RELEASE_CONDITIONS = ['strong', 'tired', 'bleeding', 'dead'] as const;
export type ReleaseCondition = (typeof RELEASE_CONDITIONS)[number];

export interface BiteRow extends Placed {
  readonly trip_id: string;
  readonly outcome: Outcome;
  /** How many like bites the row stands for: 1, except in a tallied log. */
  readonly count: number;
  readonly bite_id: string | null;
  readonly time: number | null;
  readonly position: string | null;
  readonly bait: string | null;
  readonly rod: string | null;
  readonly line_type: string | null;
  readonly line_class_lb: number | null;
  readonly hook_size: string | null;
  readonly leader_lb: number | null;
  readonly species: string | null;
  readonly lost_to: LostTo | null;
  readonly fight_min: number | null;
  readonly drop_back_s: number | null;
  readonly hooked_in: HookedIn | null;
  readonly release_condition: ReleaseCondition | null;
  readonly length_cm: number | null;
  readonly weight_kg: number | null;
  readonly angler: string | null;
  readonly notes: string | null;
}

export interface SpoolRow extends Placed {
  readonly rod: string;
  readonly date: string;
  readonly line_type: string;
  readonly line_class_lb: number | null;
  readonly cost: number | null;
  readonly reason: string | null;
  readonly notes: string | null;
}

export interface BaitBuyRow extends Placed {
  readonly date: string;
  readonly bait: string;
  readonly count: number;
  readonly unit_cost: number | null;
  readonly died: number | null;
  readonly ran_out: boolean | null;
  readonly trip_id: string | null;
  readonly source: string | null;
  readonly notes: string | null;
}
