import { LOG_FILES, TALLY_FILE } from '../base/files.ts';
import { nearestWord } from '../base/nearest.ts';
import { placeFromName } from './position-words.ts';
import {
  DEFAULT_SETTINGS,
  type Position,
  type Settings,
  type SpeciesSetting,
  type Vocabulary,
} from './settings.ts';
import type { WrittenSettings } from './settings-schema.ts';

/** Files whose headers may be mapped. */
const FILES = [...LOG_FILES, TALLY_FILE];

type Path = readonly (string | number)[];

/** Refuses the settings at a place; never returns. */
export type Refuse = (path: Path, complaint: string) => never;

/**
 * Fills the defaults into settings that passed the schema, derives side and reach of positions from
 * their names, and checks what concerns several settings at once: names given twice, a spelling
 * under two words, a standing spread outside the spread, unknown files.
 * @param placeOf where in the settings file a setting stands, in words
 */
export function fillSettings(
  written: WrittenSettings,
  { refuse, placeOf }: { readonly refuse: Refuse; readonly placeOf: (path: Path) => string },
): Settings {
  const positions = fillPositions(written.positions ?? null, refuse);
  return {
    name: written.name ?? null,
    vessel: written.vessel ?? null,
    time_zone: written.time_zone ?? DEFAULT_SETTINGS.time_zone,
    date_order: written.date_order ?? null,
    positions,
    standing_spread: fillSpread(written.standing_spread ?? [], positions, refuse),
    baits: fillVocabulary('baits', written.baits ?? {}, refuse),
    species: fillSpecies(written.species ?? {}, refuse),
    line_types: fillVocabulary('line_types', written.line_types ?? {}, refuse),
    ...fillHeaders(written.headers ?? {}, { refuse, placeOf }),
    fight_clears: written.fight_clears ?? DEFAULT_SETTINGS.fight_clears,
    practical_margin: withoutNulls(written.practical_margin ?? {}),
    costs: {
      spool: ownKeys(written.costs?.spool ?? {}),
      lost_fish: written.costs?.lost_fish ?? null,
      bait_short: written.costs?.bait_short ?? null,
      bait_left: written.costs?.bait_left ?? null,
    },
    currency: written.currency ?? null,
    units: { ...DEFAULT_SETTINGS.units, ...withoutNulls(written.units ?? {}) },
    share: { ...DEFAULT_SETTINGS.share, ...withoutNulls(written.share ?? {}) },
  };
}

function fillPositions(written: WrittenSettings['positions'], refuse: Refuse) {
  if (written === null || written === undefined || written.length === 0) {
    return DEFAULT_SETTINGS.positions;
  }
  const seen = new Set<string>();
  return written.map((entry, index): Position => {
    const derived = placeFromName(entry.name);
    const side = entry.side ?? derived.side;
    const reach = entry.reach ?? derived.reach;
    if (side === null || reach === null) {
      const lacking = side === null ? 'side' : 'reach';
      return refuse(
        ['positions', index],
        `the name "${entry.name}" does not tell the ${lacking} of the position; write it as {name: ${entry.name}, side: port, reach: long}.`,
      );
    }
    const key = entry.name.toLowerCase();
    if (seen.has(key)) {
      return refuse(['positions', index], `the position "${entry.name}" is listed twice.`);
    }
    seen.add(key);
    return { name: entry.name, side, reach };
  });
}

function fillSpread(
  written: readonly string[],
  positions: readonly Position[],
  refuse: Refuse,
): readonly string[] {
  const names = positions.map((position) => position.name);
  return written.map((name, index) => {
    const known = names.find((candidate) => candidate.toLowerCase() === name.toLowerCase());
    if (known !== undefined) return known;
    const near = nearestWord(name, names);
    const way = near === null ? `Positions: ${names.join(', ')}.` : `Did you mean ${near}?`;
    return refuse(['standing_spread', index], `"${name}" is no position of the spread. ${way}`);
  });
}

function fillVocabulary(
  group: string,
  written: Readonly<Record<string, readonly string[]>>,
  refuse: Refuse,
): Vocabulary {
  const owners = new Map<string, string>();
  const words = ownKeys(written);
  for (const [word, spellings] of Object.entries(words)) {
    for (const spelling of [word, ...spellings]) {
      const key = spelling.toLowerCase();
      const owner = owners.get(key);
      if (owner !== undefined && owner !== word) {
        refuse([group, word], `"${spelling}" stands under both "${owner}" and "${word}".`);
      }
      owners.set(key, word);
    }
  }
  return words;
}

function fillSpecies(written: NonNullable<WrittenSettings['species']>, refuse: Refuse) {
  const spellings: Record<string, readonly string[]> = Object.create(null);
  const species: Record<string, SpeciesSetting> = Object.create(null);
  for (const [word, entry] of Object.entries(written)) {
    spellings[word] = entry.spellings ?? [];
    species[word] = {
      code: entry.code ?? null,
      spellings: entry.spellings ?? [],
      kept: entry.kept ?? null,
    };
  }
  fillVocabulary('species', spellings, refuse);
  return species;
}

function fillHeaders(
  written: NonNullable<WrittenSettings['headers']>,
  { refuse, placeOf }: { readonly refuse: Refuse; readonly placeOf: (path: Path) => string },
): Pick<Settings, 'headers' | 'header_places'> {
  const headers: Record<string, Readonly<Record<string, string>>> = Object.create(null);
  const places: Record<string, Readonly<Record<string, string>>> = Object.create(null);
  for (const [name, map] of Object.entries(written)) {
    const file = FILES.find((known) => bareStem(known) === bareStem(name));
    if (file === undefined) {
      const near = nearestWord(name, FILES) ?? nearestWord(`${name}.csv`, FILES);
      const way = near === null ? `Files: ${FILES.join(', ')}.` : `Did you mean ${near}?`;
      return refuse(['headers', name], `"${name}" is no file of a log. ${way}`);
    }
    headers[file] = ownKeys(map ?? {});
    const theirs = Object.keys(map ?? {});
    places[file] = ownKeys(
      Object.fromEntries(theirs.map((header) => [header, placeOf(['headers', name, header])])),
    );
  }
  return { headers, header_places: places };
}

function bareStem(name: string): string {
  return name
    .toLowerCase()
    .replace(/\.csv$/, '')
    .replace(/[^a-z]+/g, '');
}

/** A copy that inherits nothing, so that no word of a log can be mistaken for a built-in key. */
function ownKeys<T>(record: Readonly<Record<string, T>>): Readonly<Record<string, T>> {
  return Object.assign(Object.create(null), record);
}

function withoutNulls<T extends object>(record: T): { [K in keyof T]?: NonNullable<T[K]> } {
  const kept = Object.entries(record).filter(([, value]) => value !== null && value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]?: NonNullable<T[K]> };
}
