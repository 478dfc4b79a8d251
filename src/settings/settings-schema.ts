import * as v from 'valibot';
import { LOG_FILES } from '../base/files.ts';
import { nearestWord } from '../base/nearest.ts';
import { REACHES, SIDES } from './settings.ts';

/** A word or a bare number, kept as text. */
const Text = v.pipe(
  v.union([v.string(), v.number()], 'a word or a short text'),
  v.transform((value) => String(value).trim()),
  v.minLength(1, 'a word or a short text, not empty'),
  v.maxLength(200, 'a text of at most 200 letters'),
);

/** One spelling or a list of spellings. */
const Spellings = v.pipe(
  v.unknown(),
  v.transform((value) => (value === null ? [] : Array.isArray(value) ? value : [value])),
  v.array(Text, 'a spelling or a list of spellings'),
);

const Money = v.pipe(
  v.number('an amount of money, without a currency sign'),
  v.finite('an amount of money'),
  v.minValue(0, 'an amount of 0 or more'),
);

const YesNo = v.pipe(
  v.unknown(),
  v.transform((value) => (value === 'yes' ? true : value === 'no' ? false : value)),
  v.boolean('yes or no'),
);

const Count = v.pipe(
  v.number('a whole number'),
  v.integer('a whole number'),
  v.minValue(1, 'a whole number of at least 1'),
);

const TimeZone = v.pipe(
  v.string('the name of a time zone, such as Indian/Mauritius'),
  v.trim(),
  v.check(isTimeZone, (issue) => `the name of a time zone${nearestZone(issue.input)}`),
);

/** Makes a record whose keys are the reader's own words; a blank one is an empty one. */
function named<T extends v.GenericSchema>(value: T, expected: string) {
  return v.nullish(
    v.pipe(
      v.custom<object>((input) => typeof input === 'object' && !Array.isArray(input), expected),
      v.record(v.string(), value, expected),
    ),
  );
}

/** The same, where a bare list of words will do for words without anything to say of them. */
function listed<T extends v.GenericSchema>(value: T, expected: string) {
  return v.nullish(
    v.pipe(
      v.unknown(),
      v.transform((input) =>
        Array.isArray(input) && input.every((word) => typeof word === 'string')
          ? Object.fromEntries(input.map((word: string) => [word, null]))
          : input,
      ),
      v.custom<object>((input) => typeof input === 'object' && !Array.isArray(input), expected),
      v.record(v.string(), value, expected),
    ),
  );
}

/** One of a few words; the words are named where another stands. */
function oneOf<const T extends readonly (string | number)[]>(words: T) {
  return v.nullish(v.picklist(words, listWords(words)));
}

const PositionEntry = v.pipe(
  v.unknown(),
  v.transform((value) =>
    typeof value === 'string' || typeof value === 'number' ? { name: value } : value,
  ),
  v.strictObject(
    { name: Text, side: oneOf(SIDES), reach: oneOf(REACHES) },
    'a name, or name, side and reach',
  ),
);

const SpeciesEntry = v.pipe(
  v.unknown(),
  v.transform((value) =>
    typeof value === 'string' || Array.isArray(value) ? { spellings: value } : (value ?? {}),
  ),
  v.strictObject(
    {
      code: v.nullish(
        v.pipe(
          v.string('a three-letter species code'),
          v.trim(),
          v.toUpperCase(),
          v.regex(/^[A-Z]{3}$/, 'a three-letter species code'),
        ),
      ),
      spellings: v.optional(Spellings),
      kept: v.nullish(YesNo),
    },
    'code, spellings and kept',
  ),
);

const Margin = v.nullish(
  v.pipe(
    v.number('a share between 0 and 1, such as 0.05'),
    v.gtValue(0, 'a share above 0, such as 0.05'),
    v.ltValue(1, 'a share below 1, such as 0.05'),
  ),
);

const Margins = v.strictObject(
  {
    hookup_rate: Margin,
    caught_rate: Margin,
    release_rate: Margin,
    bite_to_boat: Margin,
    bites_per_line_hour: Margin,
    hookups_per_line_hour: Margin,
    caught_per_line_hour: Margin,
    released_per_line_hour: Margin,
  },
  'measures with a share each',
);

const Costs = v.strictObject(
  {
    spool: named(Money, 'line types with an amount each'),
    lost_fish: v.nullish(Money),
    bait_short: v.nullish(Money),
    bait_left: v.nullish(Money),
  },
  'spool, lost_fish, bait_short and bait_left',
);

const Units = v.strictObject(
  {
    wind: oneOf(['kn', 'mph', 'km_h', 'm_s']),
    depth: oneOf(['m', 'ft', 'fa']),
    temperature: oneOf(['c', 'f']),
    length: oneOf(['cm', 'in']),
    weight: oneOf(['kg', 'lb']),
  },
  'wind, depth, temperature, length and weight',
);

const Share = v.strictObject(
  {
    grid_deg: oneOf([0.5, 1, 5]),
    min_vessels: v.nullish(Count),
    min_trips: v.nullish(Count),
    period: oneOf(['month', 'quarter']),
  },
  'grid_deg, min_vessels, min_trips and period',
);

/**
 * What may stand in `season.yaml`, before defaults are filled in. Every message completes the
 * sentence "it must be …"; keys that are not listed are refused.
 */
export const SettingsSchema = v.strictObject(
  {
    name: v.nullish(Text),
    vessel: v.nullish(Text),
    time_zone: v.nullish(TimeZone),
    date_order: oneOf(['ymd', 'dmy', 'mdy']),
    positions: v.nullish(v.array(PositionEntry, 'a list of positions')),
    standing_spread: v.nullish(v.array(Text, 'a list of position names')),
    baits: listed(Spellings, 'baits with their spellings'),
    species: listed(SpeciesEntry, 'species with code, spellings and kept'),
    line_types: listed(Spellings, 'line types with their spellings'),
    headers: named(
      v.nullish(v.record(v.string(), Text, 'headers of your file with our column each')),
      `files (${LOG_FILES.join(', ')}) with their headers`,
    ),
    fight_clears: oneOf(['none', 'line', 'side', 'all']),
    practical_margin: v.nullish(Margins),
    costs: v.nullish(Costs),
    currency: v.nullish(v.pipe(Text, v.maxLength(8, 'a short sign or code, such as USD'))),
    units: v.nullish(Units),
    share: v.nullish(Share),
  },
  'settings, one per line, such as time_zone: Indian/Mauritius',
);

/** The settings as written, checked. */
export type WrittenSettings = v.InferOutput<typeof SettingsSchema>;

function isTimeZone(name: string): boolean {
  // Offsets such as +04:00 pass in some versions of the runtime and say nothing of clock changes.
  if (!/^[A-Za-z]/.test(name)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

function nearestZone(name: string): string {
  const near = nearestWord(name, Intl.supportedValuesOf('timeZone'));
  return near === null ? ', such as Indian/Mauritius or UTC' : ` (did you mean ${near}?)`;
}

function listWords(words: readonly (string | number)[]): string {
  const head = words.slice(0, -1).join(', ');
  return `${head} or ${words.at(-1)}`;
}

const KEYS_INSIDE: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ['positions', ['name', 'side', 'reach']],
  ['species', ['code', 'spellings', 'kept']],
  ['practical_margin', Object.keys(Margins.entries)],
  ['costs', Object.keys(Costs.entries)],
  ['units', Object.keys(Units.entries)],
  ['share', Object.keys(Share.entries)],
]);

/** The keys known at a place of the settings, for naming the nearest one to a mistyped key. */
export function knownSettingKeys(path: readonly unknown[]): readonly string[] {
  const [group] = path;
  if (group === undefined) return Object.keys(SettingsSchema.entries);
  return KEYS_INSIDE.get(String(group)) ?? [];
}
