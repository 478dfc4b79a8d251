/** Everything a captain may set in `season.yaml`, with defaults filled in. */
export interface Settings {
  /** null: the folder's name serves. */
  readonly name: string | null;
  readonly vessel: string | null;
  /** IANA name; `UTC` where not given, which keeps wall-clock arithmetic and says so. */
  readonly time_zone: string;
  readonly date_order: 'ymd' | 'dmy' | 'mdy' | null;
  readonly positions: readonly Position[];
  /** Positions fished all the time, for logs without soaks.csv; empty: effort is not spread. */
  readonly standing_spread: readonly string[];
  readonly baits: Vocabulary;
  readonly species: Readonly<Record<string, SpeciesSetting>>;
  readonly line_types: Vocabulary;
  /** Per file, the log's own header → the contract's column. */
  readonly headers: HeaderMaps;
  /** Where each of these stands, for messages: `season.yaml, line 3, column 5`. */
  readonly header_places: HeaderMaps;
  readonly fight_clears: FightClears;
  /** By measure: the smallest difference worth acting on (a proportion, or a share of a rate). */
  readonly practical_margin: Readonly<Record<string, number>>;
  readonly costs: Costs;
  readonly currency: string | null;
  readonly units: Units;
  readonly share: ShareSettings;
}

/** Per file, the log's own headers, each with something said of it. */
export type HeaderMaps = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** Canonical word → other spellings that mean it. */
export type Vocabulary = Readonly<Record<string, readonly string[]>>;

export const SIDES = ['port', 'starboard', 'centre'] as const;
export const REACHES = ['short', 'middle', 'long', 'flat', 'pitch'] as const;
export type Side = (typeof SIDES)[number];
export type Reach = (typeof REACHES)[number];

export interface Position {
  readonly name: string;
  readonly side: Side;
  readonly reach: Reach;
}

export interface SpeciesSetting {
  /** FAO ASFIS 3-alpha code. */
  readonly code: string | null;
  readonly spellings: readonly string[];
  /** Whether this outfit keeps the species; null: not said. */
  readonly kept: boolean | null;
}

/** Which lines stop fishing while a fish is on. */
export type FightClears = 'none' | 'line' | 'side' | 'all';

export interface Costs {
  /** By line type: one filling of a reel. */
  readonly spool: Readonly<Record<string, number>>;
  readonly lost_fish: number | null;
  readonly bait_short: number | null;
  readonly bait_left: number | null;
}

/** The reader's own units on pages and in human text; the machine-readable results stay metric. */
export interface Units {
  readonly wind: 'kn' | 'mph' | 'km_h' | 'm_s';
  readonly depth: 'm' | 'ft' | 'fa';
  readonly temperature: 'c' | 'f';
  readonly length: 'cm' | 'in';
  readonly weight: 'kg' | 'lb';
}

export interface ShareSettings {
  readonly grid_deg: 0.5 | 1 | 5;
  readonly min_vessels: number;
  readonly min_trips: number;
  readonly period: 'month' | 'quarter';
}

/** The spread of a boat that has not said otherwise. */
export const DEFAULT_POSITIONS: readonly Position[] = [
  { name: 'port-short', side: 'port', reach: 'short' },
  { name: 'port-middle', side: 'port', reach: 'middle' },
  { name: 'port-long', side: 'port', reach: 'long' },
  { name: 'starboard-short', side: 'starboard', reach: 'short' },
  { name: 'starboard-middle', side: 'starboard', reach: 'middle' },
  { name: 'starboard-long', side: 'starboard', reach: 'long' },
  { name: 'flat-port', side: 'port', reach: 'flat' },
  { name: 'flat-starboard', side: 'starboard', reach: 'flat' },
  { name: 'pitch', side: 'centre', reach: 'pitch' },
];

/** What holds where `season.yaml` is absent or silent. */
export const DEFAULT_SETTINGS: Settings = {
  name: null,
  vessel: null,
  time_zone: 'UTC',
  date_order: null,
  positions: DEFAULT_POSITIONS,
  standing_spread: [],
  baits: {},
  species: {},
  line_types: {},
  headers: {},
  header_places: {},
  fight_clears: 'line',
  practical_margin: {},
  costs: { spool: {}, lost_fish: null, bait_short: null, bait_left: null },
  currency: null,
  units: { wind: 'kn', depth: 'm', temperature: 'c', length: 'cm', weight: 'kg' },
  share: { grid_deg: 1, min_vessels: 3, min_trips: 3, period: 'month' },
};
