/** A line rigged for a trip, as far as its chances hang on it. */
export interface Rig {
  readonly month: number;
  readonly windy: boolean;
  readonly reach: 'short' | 'middle' | 'long';
  readonly bait: string;
  readonly braid: boolean;
}

/** What something does to the hookup (on the logit scale) and to bites (on the log scale). */
interface Effect {
  readonly hookup: number;
  readonly bites: number;
}

/**
 * How far trips differ in bites. `gamma` of shape k makes counts negative binomial of size k.
 * `log-normal` has a longer tail; `withHookup`, −1 to 1, is how days with many bites go together with
 * days that hook well.
 */
type DayBites =
  | { readonly law: 'gamma'; readonly shape: number }
  | { readonly law: 'log-normal'; readonly spread: number; readonly withHookup: number };

/** An invented season whose truth is written down; every spread is a standard deviation. */
export interface World {
  readonly trips: number;
  /** Bites a trip, on average over trips with everything else in the middle. */
  readonly bitesPerTrip: number;
  /** How far trips differ in hookups beyond what is known of them, on the logit scale. */
  readonly dayHookup: number;
  /** What multiplies a trip's bites, with a mean of 1. */
  readonly dayBites: DayBites;
  /** Share of bites hooked on a day like any other, with everything else in the middle. */
  readonly hookup: number;
  /** Braid against mono, and how far that differs from day to day. */
  readonly line: Effect;
  readonly lineByDay: Effect;
  /** Bites of one line come this many at a time, and share a mood of this spread. */
  readonly bursts: { readonly size: number; readonly mood: number };
  readonly months: readonly Effect[];
  readonly reaches: Readonly<Record<Rig['reach'], Effect>>;
  readonly baits: Readonly<Record<string, Effect>>;
  /** A windy day against a calm one; every second day is windy. */
  readonly wind: Effect;
  /** How likely a line that fishes so is rigged with braid; lines are rigged one by one. */
  readonly braidChance: (rig: Omit<Rig, 'braid'>) => number;
  /** Whether trips fall into months by chance, or each month has as many. */
  readonly monthsDrawn: boolean;
}

/** Four months, three reaches, three baits that all matter a little; days differ a little. */
export const PLAIN_WORLD: World = {
  trips: 30,
  bitesPerTrip: 12,
  dayHookup: 0.3,
  dayBites: { law: 'gamma', shape: 10 },
  hookup: 0.6,
  line: { hookup: 0.4, bites: 0.2 },
  lineByDay: { hookup: 0, bites: 0 },
  bursts: { size: 1, mood: 0 },
  months: [
    { hookup: 0.3, bites: -0.3 },
    { hookup: 0.1, bites: 0.3 },
    { hookup: -0.1, bites: 0.2 },
    { hookup: -0.3, bites: -0.2 },
  ],
  reaches: {
    short: { hookup: -0.2, bites: -0.2 },
    middle: { hookup: 0, bites: 0 },
    long: { hookup: 0.2, bites: 0.2 },
  },
  baits: {
    mullet: { hookup: 0.2, bites: 0.1 },
    scad: { hookup: 0, bites: 0 },
    squid: { hookup: -0.2, bites: -0.1 },
  },
  wind: { hookup: -0.2, bites: 0.2 },
  braidChance: () => 0.5,
  monthsDrawn: true,
};

/** The levels that studies compare: A, then B. */
export const LINES = ['braid', 'mono'] as const;
