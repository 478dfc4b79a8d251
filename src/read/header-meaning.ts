import { DEFAULT_SETTINGS, type Units } from '../settings/settings.ts';
import type { Colons } from './cell-compound.ts';
import type { ColumnSpec } from './column-spec.ts';
import { DATE_FORMAT } from './date-order.ts';
import { headerWords } from './header-words.ts';
import { dimensionOf, type Unit, unitFromWord } from './units.ts';

/** What a header was found to mean. */
export interface HeaderMeaning {
  readonly spec: ColumnSpec;
  /** The unit its cells stand in; null for columns without one. */
  readonly unit: Unit | null;
  /** The header names no unit, so the column's own one is taken. */
  readonly unitAssumed: boolean;
  /** What a colon in the cells parts, where the header says `mm:ss` or `hh:mm`. */
  readonly colons?: Colons;
}

/** The headers a file's columns are known by, ready for look-up. */
export interface HeaderLexicon {
  readonly sure: ReadonlyMap<string, ColumnSpec>;
  readonly bare: ReadonlyMap<string, ColumnSpec>;
  /** Headers that mean a column only when a unit follows. */
  readonly stems: ReadonlyMap<string, ColumnSpec>;
  readonly units: Units;
}

/** The setting that says in which unit a column without one stands. */
const UNIT_SETTINGS: Readonly<Record<string, keyof Units>> = {
  wind_kn: 'wind',
  depth_m: 'depth',
  water_temp_c: 'temperature',
  length_cm: 'length',
  weight_kg: 'weight',
};

/**
 * Lays out the headers of a file's columns; a column's own name goes before any synonym. `units`
 * are those that a header without a unit stands for.
 */
export function headerLexicon(
  specs: readonly ColumnSpec[],
  units: Units = DEFAULT_SETTINGS.units,
): HeaderLexicon {
  const sure = new Map<string, ColumnSpec>();
  const bare = new Map<string, ColumnSpec>();
  const stems = new Map<string, ColumnSpec>();
  for (const spec of specs) sure.set(headerWords(spec.name), spec);
  for (const spec of specs) {
    for (const word of spec.also ?? []) if (!sure.has(word)) sure.set(word, spec);
    for (const word of spec.bare ?? []) if (!bare.has(word)) bare.set(word, spec);
    for (const word of spec.stems ?? []) if (!stems.has(word)) stems.set(word, spec);
  }
  return { sure, bare, stems, units };
}

/**
 * What a header means among a file's columns, or null. Tried in order: the header as a whole; its
 * last one to three words as a unit (`wind_mph`, `Depth (ft)`, `Wind speed, km/h`); a header that
 * says no unit; the header without what it has in brackets (`Outcome (M/L/R/K)`).
 */
export function headerMeaning(header: string, lexicon: HeaderLexicon): HeaderMeaning | null {
  const format = /\(?\b(h{1,2}:m{1,2}|m{1,2}:s{1,2})\b\)?/i.exec(header);
  if (format !== null) {
    const meaning = headerMeaning(header.replace(format[0], ' '), lexicon);
    const colons = /^h/i.test(format[1] ?? '') ? 'hours-minutes' : 'minutes-seconds';
    return meaning && { ...meaning, unitAssumed: false, colons };
  }
  const words = headerWords(header);
  const whole = exactMeaning(header, lexicon);
  if (whole !== null) return whole;
  if (DATE_FORMAT.test(header)) return headerMeaning(header.replace(DATE_FORMAT, ' '), lexicon);
  const withUnit = unitAtEnd(words, lexicon);
  if (withUnit !== null) return withUnit;
  const bare = lexicon.bare.get(words);
  if (bare !== undefined) {
    const setting = UNIT_SETTINGS[bare.name];
    const unit = setting === undefined ? (bare.unit ?? null) : lexicon.units[setting];
    return { spec: bare, unit, unitAssumed: true };
  }
  const unbracketed = header.replace(/\([^)]*\)|\[[^\]]*\]/g, ' ');
  return unbracketed.trim() === '' || unbracketed === header
    ? null
    : headerMeaning(unbracketed, lexicon);
}

/** What a header means as a whole, or null. */
export function exactMeaning(header: string, lexicon: HeaderLexicon): HeaderMeaning | null {
  const spec = lexicon.sure.get(headerWords(header));
  return spec === undefined ? null : { spec, unit: spec.unit ?? null, unitAssumed: false };
}

function unitAtEnd(words: string, lexicon: HeaderLexicon): HeaderMeaning | null {
  const parts = words.split('_');
  for (let taken = Math.min(3, parts.length - 1); taken > 0; taken--) {
    const stem = parts.slice(0, -taken).join('_');
    const spec =
      lexicon.bare.get(stem) ??
      lexicon.sure.get(stem) ??
      lexicon.stems.get(stem) ??
      ownStem(stem, lexicon);
    if (spec?.unit === undefined) continue;
    const unit = unitFromWord(parts.slice(-taken).join('_'), dimensionOf(spec.unit));
    if (unit !== null) return { spec, unit, unitAssumed: false };
  }
  return null;
}

/** `length` for `length_cm`: the column whose own name is this stem and a unit. */
function ownStem(stem: string, lexicon: HeaderLexicon): ColumnSpec | undefined {
  for (const spec of lexicon.sure.values()) {
    if (spec.unit !== undefined && spec.name === `${stem}_${spec.unit}`) return spec;
  }
  return undefined;
}
