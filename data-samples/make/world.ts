import type { Reach } from '../../src/settings/settings.ts';

/**
 * The shape of an invented fishery: every parameter a season is drawn from. Multipliers of the bite
 * rate are relative to 1; effects on the chance of a hookup are added on the logit scale.
 */
export interface World {
  readonly name: string;
  readonly vessel: string;
  readonly time_zone: string;
  readonly trip_prefix: string;
  readonly seed: number;
  readonly months: readonly MonthTruth[];
  readonly trip_kinds: Readonly<Record<string, TripKindTruth>>;
  readonly areas: Readonly<Record<string, AreaTruth>>;
  readonly bites: BiteTruth;
  readonly hookup: HookupTruth;
  readonly reaches: Readonly<Record<Reach, ReachTruth>>;
  readonly baits: Readonly<Record<string, BaitTruth>>;
  readonly hook_sizes: Readonly<Record<string, HookSizeTruth>>;
  readonly hook_models: Readonly<Record<string, number>>;
  readonly leaders: LeaderTruth;
  readonly line_types: Readonly<Record<string, LineTypeTruth>>;
  /** The class of every new filling, from this date on; the first begins the season. */
  readonly line_class_lb: readonly { readonly from: string; readonly lb: number }[];
  /** By rod: the line type of its fillings from this date on; every rod begins with mono. */
  readonly changes: Readonly<Record<string, readonly LineChange[]>>;
  readonly species: Readonly<Record<string, SpeciesTruth>>;
  readonly handling: HandlingTruth;
  readonly costs: CostTruth;
  readonly writing: WritingTruth;
  readonly comparisons: readonly ComparisonTruth[];
}

export interface MonthTruth {
  /** YYYY-MM */
  readonly month: string;
  readonly trips: number;
  readonly season: 'cool' | 'warm';
  readonly mean_wind_kn: number;
  readonly wind_from_deg: number;
  readonly water_temp_c: number;
  readonly bites: number;
  readonly hookup_logit: number;
}

export interface TripKindTruth {
  /** Share of the trips. */
  readonly share: number;
  readonly hours: Span;
  readonly kite_lines: Span;
  readonly flat_lines: Span;
  readonly anglers: Span;
}

/** Lowest and highest value, both possible. */
export type Span = readonly [number, number];

export interface AreaTruth {
  readonly share: number;
  readonly lat: number;
  readonly lon: number;
  readonly depth_m: Span;
  readonly bites: number;
}

export interface BiteTruth {
  /** Bites per line-hour where every multiplier is 1. */
  readonly per_line_hour: number;
  /** A trip's own multiplier is gamma with this shape and mean 1: small shape, wild days. */
  readonly day_shape: number;
  readonly bursts: { readonly per_hour: number; readonly minutes: Span; readonly times: number };
  /** Multiplier by hour of the day, 0 to 23. */
  readonly hour_of_day: readonly number[];
  readonly wind_kn: readonly Band[];
  readonly current_kn: readonly Band[];
  /** The moon does nothing in this world. */
  readonly moon: 1;
}

/** The multiplier for values below the limit; the last band has no limit. */
export interface Band {
  readonly below: number | null;
  readonly bites: number;
}

export interface HookupTruth {
  readonly base_logit: number;
  /** Standard deviation of a trip's own effect. */
  readonly day_sd: number;
  /** Per knot above 10. */
  readonly wind_logit_per_kn: number;
}

export interface ReachTruth {
  readonly bites: number;
  readonly hookup_logit: number;
}

export type BaitWeight = 'light' | 'middle' | 'heavy';

export interface BaitTruth {
  readonly weight: BaitWeight;
  readonly bites: number;
  readonly hookup_logit: number;
  /** How often the crew wants it, by reach; shares of each reach add up to 1 over the baits. */
  readonly wanted: Readonly<Record<Reach, number>>;
  readonly unit_cost: number;
  /** Mean share of a purchase that dies before it is used. */
  readonly dies: number;
  readonly spellings: readonly string[];
}

export interface HookSizeTruth {
  readonly hookup_logit: number;
  /** How often the crew rigs it, by the weight of the bait. */
  readonly rigged: Readonly<Record<BaitWeight, number>>;
}

export interface LeaderTruth {
  /** The two usual leaders: each day one kite and one flat line carry the first, the others the second. */
  readonly pair_lb: readonly [number, number];
  /** Now and then a rod carries this one instead. */
  readonly heavy_lb: number;
  readonly heavy_share: number;
  /** Effect of each leader on the chance of a hookup. */
  readonly hookup_logit: Readonly<Record<string, number>>;
  /** Chance that a toothy fish parts it. */
  readonly bitten_through: Readonly<Record<string, number>>;
}

export interface LineTypeTruth {
  readonly hookup_logit: number;
  readonly pulled: number;
  /** Multiplier of the fight time. */
  readonly fight: number;
  /** Expected breaks by the a-th fight since the filling: (a / theta_fights) ^ beta. */
  readonly wear: { readonly beta: number; readonly theta_fights: number };
  readonly spool_cost: number;
  /** Trips after which the crew means to fill the reel anew; now and then it runs late. */
  readonly life_trips: Span;
  readonly late: { readonly share: number; readonly times: number };
  readonly spellings: readonly string[];
}

export interface LineChange {
  readonly from: string;
  readonly line_type: string;
}

export interface SpeciesTruth {
  /** FAO ASFIS 3-alpha code. */
  readonly code: string;
  readonly share: { readonly cool: number; readonly warm: number };
  readonly toothy: boolean;
  readonly kept: number;
  readonly fight_min_median: number;
  readonly length_cm_median: number;
  /** kg for a fish of 1 m; weight grows with the cube of length. */
  readonly kg_at_1_m: number;
  readonly spellings: readonly string[];
}

export interface HandlingTruth {
  readonly fight_log_sd: number;
  readonly drop_back_s_median: number;
  readonly drop_back_log_sd: number;
  readonly hooked_in: { readonly mouth: number; readonly deep: number; readonly foul: number };
  /** Deep hooks on drop-backs over 15 s: their share is this many times as high. */
  readonly deep_after_15_s: number;
  readonly hook_failed: number;
  readonly predator: number;
  readonly other_loss: number;
  readonly tired_per_fight_min: number;
  readonly bleeding: { readonly deep: number; readonly elsewhere: number };
  readonly dead: { readonly deep: number; readonly elsewhere: number };
}

export interface CostTruth {
  readonly currency: string;
  readonly lost_fish: number;
  readonly bait_short: number;
  readonly bait_left: number;
  /** Weekends: the pens ask more, and sell less to each boat. */
  readonly weekend_price: number;
  readonly weekend_supply: number;
}

/** How faithfully the crew writes things down: chance that a cell is filled. */
export interface WritingTruth {
  readonly bite_time: number;
  readonly position: number;
  readonly fight: number;
  readonly drop_back: number;
  readonly hooked_in: number;
  readonly length: number;
  readonly water_temp: number;
  readonly current: number;
  readonly missed_species: number;
}

/** A question the season is meant to answer, and how. */
export interface ComparisonTruth {
  readonly factor: 'hook_size' | 'leader_lb' | 'line_type' | 'line_class_lb' | 'hook_model';
  readonly between: readonly [string, string];
  readonly verdict: 'clear' | 'alike' | 'open' | 'tied';
  readonly why: string;
}
