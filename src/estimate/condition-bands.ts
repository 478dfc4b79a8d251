import { formatDecimal, RANGE_DASH, THIN_SPACE } from '../base/format-number.ts';
import { inReaderUnit, type ReaderUnits, unitSign } from '../base/format-unit.ts';
import type { Settings } from '../settings/settings.ts';
import { byMoon, byNumber, byText, type LevelOrder } from '../tally/level-order.ts';
import { beaufortRange } from '../tidy/beaufort.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';

/** One thing about a day that the bite may go with. */
export interface Condition {
  /** Also the name of its column in the CSV files. */
  readonly name:
    | 'wind_band'
    | 'current'
    | 'wave'
    | 'water_temp'
    | 'moon'
    | 'area'
    | 'clarity'
    | 'sky';
  /** In the trade's words: `wind`, `water temperature`. */
  readonly words: string;
  /** The column of trips.csv that it comes from. */
  readonly column: string;
  /** The level of a trip; null: not recorded. */
  readonly levelOf: (trip: TidyTrip) => string | null;
  readonly order: LevelOrder;
  /** A level as pages name it, in the reader's units. */
  readonly nameOf: (level: string) => string;
  /** Where a bite came, as a sentence says it, from a level's name: `around the full moon`. */
  readonly placeOf: (name: string) => string;
}

/** Knots from which each current band begins. Common practice, no source. */
const CURRENT_FROM = [0, 0.5, 1, 1.5, 2] as const;

/**
 * Metres from which each sea state begins, with its name. Source: WMO code table 3700, its lower
 * states and its upper ones put together.
 */
const SEA_FROM = [
  { from: 0, name: 'calm or smooth' },
  { from: 0.5, name: 'slight' },
  { from: 1.25, name: 'moderate' },
  { from: 2.5, name: 'rough' },
  { from: 4, name: 'very rough' },
] as const;

/** Temperatures are cut into this many bands at most. Common practice, no source. */
const MOST_TEMPERATURES = 8;

/**
 * Every condition a log may hold, in the order of the page. Bands of temperature are whole degrees
 * Celsius wide: one, or more where the log's own temperatures would fill over eight.
 */
export function conditions(trips: readonly TidyTrip[], settings: Settings): readonly Condition[] {
  const { units } = settings;
  return [
    {
      name: 'wind_band',
      words: 'wind',
      column: 'wind_kn',
      levelOf: ({ windForce }) => (windForce === null ? null : String(windForce)),
      order: byNumber,
      nameOf: (force) => `force ${force}, ${beaufortRange(Number(force))}`,
      placeOf: (name) => `in ${name}`,
    },
    {
      name: 'current',
      words: 'current',
      column: 'current_kn',
      levelOf: ({ current_kn }) => bandFrom(CURRENT_FROM, current_kn),
      order: byNumber,
      nameOf: (from) => rangeName(Number(from), nextOf(CURRENT_FROM, Number(from)), 'kn', 1),
      placeOf: (name) => `in a current of ${name}`,
    },
    {
      name: 'wave',
      words: 'sea',
      column: 'wave_m',
      levelOf: ({ wave_m }) =>
        bandFrom(
          SEA_FROM.map(({ from }) => from),
          wave_m,
        ),
      order: byNumber,
      nameOf: (from) => seaName(Number(from), units),
      placeOf: (name) => `in a sea that was ${name}`,
    },
    waterTemperature(trips, units),
    {
      name: 'moon',
      words: 'moon',
      column: 'date',
      levelOf: ({ moon }) => moon,
      order: byMoon,
      nameOf: (eighth) => eighth,
      placeOf: (name) => `around the ${name} moon`,
    },
    written('area', 'ground', (name) => `at ${name}`),
    written('clarity', 'clarity', (name) => `in water logged as ${name}`),
    written('sky', 'sky', (name) => `under a sky logged as ${name}`),
  ];
}

function written(
  name: 'area' | 'clarity' | 'sky',
  words: string,
  placeOf: Condition['placeOf'],
): Condition {
  const levelOf = (trip: TidyTrip) => trip[name];
  return { name, words, column: name, levelOf, order: byText, nameOf: (level) => level, placeOf };
}

function waterTemperature(trips: readonly TidyTrip[], units: ReaderUnits): Condition {
  const known = trips.flatMap(({ water_temp_c }) => (water_temp_c === null ? [] : [water_temp_c]));
  const [least, most] = [Math.floor(Math.min(...known)), Math.floor(Math.max(...known))];
  const width = known.length === 0 ? 1 : Math.ceil((most - least + 1) / MOST_TEMPERATURES);
  const shown = (celsius: number) => inReaderUnit(celsius, 'temperature', units);
  return {
    name: 'water_temp',
    words: 'water temperature',
    column: 'water_temp_c',
    levelOf: ({ water_temp_c }) =>
      water_temp_c === null
        ? null
        : String(least + width * Math.floor((water_temp_c - least) / width)),
    order: byNumber,
    nameOf: (from) => {
      const next = shown(Number(from) + width);
      return rangeName(shown(Number(from)), next, unitSign('temperature', units), 0);
    },
    placeOf: (name) => `at ${name}`,
  };
}

/** The start of the band a value lies in, as text; a band holds its start and not its end. */
function bandFrom(starts: readonly number[], value: number | null): string | null {
  if (value === null) return null;
  return String(starts.filter((start) => value >= start).at(-1) ?? starts[0] ?? 0);
}

function nextOf(starts: readonly number[], from: number): number | null {
  return starts[starts.indexOf(from) + 1] ?? null;
}

/** Waves are told in metres or feet: nobody logs them in fathoms. */
function seaName(from: number, units: ReaderUnits): string {
  const state = SEA_FROM.find((band) => band.from === from);
  const to = nextOf(
    SEA_FROM.map((band) => band.from),
    from,
  );
  const unit = { ...units, depth: units.depth === 'm' ? ('m' as const) : ('ft' as const) };
  const shown = (metres: number) => inReaderUnit(metres, 'depth', unit);
  const decimals = unit.depth === 'm' ? 2 : 0;
  const range = rangeName(
    shown(from),
    to === null ? null : shown(to),
    unitSign('depth', unit),
    decimals,
  );
  return `${state?.name ?? ''}, ${range}`;
}

function rangeName(from: number, to: number | null, sign: string, decimals: number): string {
  const write = (value: number) =>
    formatDecimal(value, decimals)
      .replace(/(\.\d*?)0+$/, '$1')
      .replace(/\.$/, '');
  if (to === null) return `${write(from)}${THIN_SPACE}${sign} or more`;
  if (from === 0) return `under ${write(to)}${THIN_SPACE}${sign}`;
  return `${write(from)}${RANGE_DASH}${write(to)}${THIN_SPACE}${sign}`;
}
