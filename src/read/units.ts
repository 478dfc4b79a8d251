/** What a unit measures. */
export type Dimension = 'length' | 'speed' | 'temperature' | 'mass' | 'time';

/** A unit of a column's name or of a cell, under the short name the log's columns use. */
export type Unit = keyof typeof UNITS;

/**
 * Units by short name with their size in a common one (millimetres, metres per hour, grams,
 * seconds) and the words that stand for them. All ratios are exact by definition.
 * Source: BIPM, The International System of Units, 9th ed. (2019), and the international yard and
 * pound agreement of 1959 (inch 25.4 mm, pound 453.59237 g); the fathom is 6 feet, the knot
 * 1852 m per hour.
 */
const UNITS = {
  mm: { dimension: 'length', size: 1, words: ['mm', 'millimetre', 'millimetres'] },
  cm: {
    dimension: 'length',
    size: 10,
    words: ['cm', 'cms', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
  },
  m: {
    dimension: 'length',
    size: 1000,
    words: ['m', 'mtr', 'mtrs', 'metre', 'metres', 'meter', 'meters'],
  },
  in: { dimension: 'length', size: 25.4, words: ['in', 'ins', 'inch', 'inches', '"', '”', '″'] },
  ft: { dimension: 'length', size: 304.8, words: ['ft', 'foot', 'feet', "'", '’', '′'] },
  fa: {
    dimension: 'length',
    size: 1828.8,
    words: ['fa', 'fm', 'fms', 'fth', 'fthm', 'fathom', 'fathoms'],
  },
  kn: { dimension: 'speed', size: 1852, words: ['kn', 'kt', 'kts', 'kns', 'knot', 'knots'] },
  mph: { dimension: 'speed', size: 1609.344, words: ['mph', 'mi_h', 'miles_per_hour'] },
  km_h: { dimension: 'speed', size: 1000, words: ['km_h', 'kmh', 'kph', 'kmph', 'km_hr'] },
  m_s: { dimension: 'speed', size: 3600, words: ['m_s', 'mps', 'ms', 'm_sec'] },
  c: {
    dimension: 'temperature',
    size: 1,
    words: ['c', 'deg_c', 'degc', 'celsius', 'degrees_c', 'centigrade'],
  },
  f: {
    dimension: 'temperature',
    size: 1,
    words: ['f', 'deg_f', 'degf', 'fahrenheit', 'degrees_f'],
  },
  g: { dimension: 'mass', size: 1, words: ['g', 'gr', 'gram', 'grams'] },
  kg: {
    dimension: 'mass',
    size: 1000,
    words: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'],
  },
  lb: {
    dimension: 'mass',
    size: 453.59237,
    words: ['lb', 'lbs', 'pound', 'pounds', '#', 'lb_test', 'lbs_test'],
  },
  oz: { dimension: 'mass', size: 28.349523125, words: ['oz', 'ounce', 'ounces'] },
  s: { dimension: 'time', size: 1, words: ['s', 'sec', 'secs', 'second', 'seconds'] },
  min: { dimension: 'time', size: 60, words: ['min', 'mins', 'minute', 'minutes', 'm'] },
  h: { dimension: 'time', size: 3600, words: ['h', 'hr', 'hrs', 'hour', 'hours'] },
} as const satisfies Record<
  string,
  { readonly dimension: Dimension; readonly size: number; readonly words: readonly string[] }
>;

/** What the unit measures. */
export function dimensionOf(unit: Unit): Dimension {
  return UNITS[unit].dimension;
}

const BY_WORD: ReadonlyMap<string, Unit> = new Map(
  (Object.keys(UNITS) as Unit[]).flatMap((unit) =>
    UNITS[unit].words.map((word): [string, Unit] => [`${UNITS[unit].dimension} ${word}`, unit]),
  ),
);

/**
 * The unit that a word stands for among those of one dimension, or null. `m` is metres of a
 * depth and minutes of a fight. Case, dots and a slash or space inside do not matter (`Km/h`).
 */
export function unitFromWord(word: string, dimension: Dimension): Unit | null {
  const bare = word
    .trim()
    .toLowerCase()
    .replace(/º|°/g, 'deg ')
    .replace(/\.$/, '')
    .trim()
    .replace(/[\s/.-]+/g, '_');
  return BY_WORD.get(`${dimension} ${bare}`) ?? null;
}

/** Converts a value between two units of the same dimension. */
export function convertUnit(value: number, from: Unit, to: Unit): number {
  if (from === to) return value;
  if (from === 'f' && to === 'c') return ((value - 32) * 5) / 9;
  if (from === 'c' && to === 'f') return (value * 9) / 5 + 32;
  return (value * UNITS[from].size) / UNITS[to].size;
}
