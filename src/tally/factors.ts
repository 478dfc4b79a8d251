import type { Settings } from '../settings/settings.ts';
import type { TidyBite, TidySoak } from '../tidy/tidy-rows.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import type { EffortPiece } from './effort-pieces.ts';
import {
  byHookSize,
  byLight,
  byMoon,
  byNumber,
  byText,
  inOrderOf,
  type LevelOrder,
} from './level-order.ts';
import { LINE_AGE_BANDS, lineAgeBand } from './line-age-band.ts';

type Cell = string | number | null;

/**
 * Where a factor varies. `trip`: one level a trip, so trip-level effort carries it. `line`: it
 * differs between the lines of a trip. `clock`: it changes while a line is out, so a soak's hours
 * are split. `outcome`: only a hooked fish has it, so effort cannot.
 */
export type FactorScope = 'trip' | 'line' | 'clock' | 'outcome';

/** A way to divide the log into groups. */
export interface Factor {
  readonly scope: FactorScope;
  readonly ofBite: (bite: TidyBite) => Cell;
  /**
   * The level of a piece of effort; null: not recorded; undefined: the effort cannot be divided
   * by this factor at all.
   */
  readonly ofEffort: (piece: EffortPiece) => Cell | undefined;
  readonly order: (settings: Settings) => LevelOrder;
}

const ofTrip = (
  level: (trip: TidyTrip) => Cell,
  order: Factor['order'] = () => byText,
): Factor => ({
  scope: 'trip',
  ofBite: (bite) => level(bite.trip),
  ofEffort: (piece) => level(piece.unit.trip),
  order,
});

type LineCell =
  | 'bait'
  | 'rod'
  | 'line_type'
  | 'line_class_lb'
  | 'hook_size'
  | 'hook_model'
  | 'leader_lb';

const ofLine = (cell: LineCell, order: Factor['order'] = () => byText): Factor => ({
  scope: 'line',
  ofBite: (bite) => bite[cell],
  ofEffort: ({ unit }) => unit.soak?.[cell],
  order,
});

const ofPosition = (cell: 'side' | 'reach', order: Factor['order']): Factor => ({
  scope: 'line',
  ofBite: (bite) => bite[cell],
  ofEffort: ({ unit }) => (unit.soak ?? unit.position)?.[cell],
  order,
});

const vocabulary = (words: (settings: Settings) => object) => (settings: Settings) =>
  inOrderOf(Object.keys(words(settings)));

const soakAgeBand = (soak: TidySoak | null): Cell | undefined => {
  if (soak === null) return undefined;
  return soak.lineAge === null ? null : lineAgeBand(soak.lineAge.trips);
};

/** Every factor by its name. */
export const FACTORS = {
  bait: ofLine(
    'bait',
    vocabulary((settings) => settings.baits),
  ),
  position: {
    scope: 'line',
    ofBite: (bite) => bite.position,
    ofEffort: ({ unit }) => unit.soak?.position ?? unit.position?.name,
    order: (settings) => inOrderOf(settings.positions.map((position) => position.name)),
  },
  side: ofPosition('side', () => inOrderOf(['port', 'starboard', 'centre'])),
  reach: ofPosition('reach', () => inOrderOf(['short', 'middle', 'long', 'flat', 'pitch'])),
  line_type: ofLine(
    'line_type',
    vocabulary((settings) => settings.line_types),
  ),
  line_class_lb: ofLine('line_class_lb', () => byNumber),
  hook_size: ofLine('hook_size', () => byHookSize),
  hook_model: ofLine('hook_model'),
  leader_lb: ofLine('leader_lb', () => byNumber),
  rod: ofLine('rod'),
  species: {
    scope: 'outcome',
    ofBite: (bite) => bite.species,
    ofEffort: () => undefined,
    order: vocabulary((settings) => settings.species),
  },
  area: ofTrip((trip) => trip.area),
  vessel: ofTrip((trip) => trip.vessel),
  trip_kind: ofTrip((trip) => trip.trip_kind),
  month: ofTrip((trip) => trip.month),
  week: ofTrip((trip) => trip.week),
  hour_of_day: {
    scope: 'clock',
    ofBite: (bite) => bite.hourOfDay,
    // A soak without a clock has no hour, so its hours stand in no group of this factor.
    ofEffort: (piece) => piece.hourOfDay ?? undefined,
    order: () => byNumber,
  },
  light: {
    scope: 'clock',
    ofBite: (bite) => bite.light,
    ofEffort: (piece) => piece.light ?? undefined,
    order: () => byLight,
  },
  wind_band: ofTrip(
    (trip) => trip.windForce,
    () => byNumber,
  ),
  moon: ofTrip(
    (trip) => trip.moon,
    () => byMoon,
  ),
  line_age_band: {
    scope: 'line',
    ofBite: (bite) => (bite.lineAge === null ? null : lineAgeBand(bite.lineAge.trips)),
    ofEffort: ({ unit }) => soakAgeBand(unit.soak),
    order: () => inOrderOf(LINE_AGE_BANDS),
  },
} as const satisfies Record<string, Factor>;

export type FactorName = keyof typeof FACTORS;

export const FACTOR_NAMES = Object.keys(FACTORS) as readonly FactorName[];

/** The factor under its general type. */
export function factorOf(name: FactorName): Factor {
  return FACTORS[name];
}
