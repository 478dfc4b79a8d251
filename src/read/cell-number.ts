import { type Cell, type CellReader, plain, repaired, unread } from './cell.ts';
import { type Colons, compoundValue } from './cell-compound.ts';
import { cleanValue } from './clean-text.ts';
import type { ColumnSpec } from './column-spec.ts';
import * as say from './messages-cells.ts';
import { type DecimalMark, type NumberForm, numberForm } from './number-form.ts';
import { convertUnit, dimensionOf, type Unit, unitFromWord } from './units.ts';

/** What a number column must know to read its cells. */
export interface NumberContext {
  readonly spec: ColumnSpec;
  /** The unit the header gives; null for columns without one. */
  readonly unit: Unit | null;
  /** What colons part in the column's figures, where its header says so. */
  readonly colons?: Colons | null;
  /** The file's decimal mark; null where the file uses both and a cell must tell by itself. */
  readonly mark: DecimalMark | null;
}

/** Words after a count that only name what is counted: `4 lines`, `3 pax`. */
const COUNTED =
  /^(lines?|rods?|anglers?|pax|people|persons?|guests?|baits?|pcs?|pieces?|fish|bites?|x)$/i;
const ROUGHLY =
  /^(?:~|≈|±|c\.|ca\.?|approx\.?|about|abt\.?|est\.?|estimated)\s*(?=\d)|\s*\(?(?:approx|est)\.?\)?$/gi;
const CURRENCY =
  /^(?:\p{Sc}|rs\.?|usd|eur|gbp|mur|zar|aud|nzd)\s*|\s*(?:\p{Sc}|rs\.?|usd|eur|gbp|mur|zar|aud|nzd)$/giu;

/**
 * Makes the reader of a number column. It takes thousands marks, decimal commas, currency signs, a
 * unit in the cell (`12 kn`, `82°F`, `5'11"`, `1h20`) and rough figures (`~12`); it converts to the
 * column's unit and refuses what is no number, no whole number where counts stand, or out of range.
 */
export function numberReader(context: NumberContext): CellReader<number> {
  const { spec, unit } = context;
  return (text) => {
    const read = readFigure(cleanValue(text), context);
    if (read.value === null) return read;
    const value = unit === null || spec.unit === undefined ? read.value : inOwnUnit(read, context);
    const [least, most] = spec.range ?? [-Infinity, Infinity];
    if (value < least || value > most) return unread(say.numberOutOfRange(spec, text, value));
    if (spec.whole && !Number.isInteger(value)) return unread(say.numberNotWhole(spec, text));
    return { value, note: read.note };
  };
}

/** A figure before conversion; `unit` is the one its own cell names, else null. */
interface Figure extends Cell<number> {
  readonly unit?: Unit;
}

function inOwnUnit(figure: Figure, { spec, unit }: NumberContext): number {
  const from = figure.unit ?? unit;
  if (figure.value === null || from === null || spec.unit === undefined) return figure.value ?? 0;
  return convertUnit(figure.value, from, spec.unit);
}

function readFigure(text: string, context: NumberContext): Figure {
  const { spec } = context;
  const form = numberForm(text);
  if (form !== null) return readForm(form, text, context);
  const compound = spec.unit === undefined ? null : compoundValue(text, spec.unit, context.colons);
  if (compound === 'two-ways') return unread(say.durationTwoWays(spec, text));
  if (compound !== null && spec.unit !== undefined) {
    return { ...repaired(compound, say.numberUnitInCell(spec, text)), unit: spec.unit };
  }
  const exact = text.replace(ROUGHLY, '');
  const stripped = spec.unit === undefined ? exact.replace(CURRENCY, '') : exact;
  const parts = /^(.*?\d[.,]?)\s*([^\d\s.,].*)?$/.exec(stripped.trim());
  const digits = parts?.[1] ?? '';
  const word = parts?.[2] ?? '';
  const bare = numberForm(digits);
  if (bare === null) return unread(say.numberUnreadable(spec, text));
  const figure = readForm(bare, text, context);
  if (figure.value === null) return figure;
  if (word === '') return repaired(figure.value, say.numberSignsDropped(spec, text));
  if (spec.unit === undefined) {
    return spec.whole && COUNTED.test(word)
      ? repaired(figure.value, say.numberSignsDropped(spec, text))
      : unread(say.numberUnreadable(spec, text));
  }
  if (/^(?:°|º|deg(?:rees)?\.?)$/i.test(word) && dimensionOf(spec.unit) === 'temperature') {
    return repaired(figure.value, say.numberSignsDropped(spec, text));
  }
  const unit = unitFromWord(word, dimensionOf(spec.unit));
  if (unit === null) return unread(say.numberUnreadable(spec, text));
  return { ...repaired(figure.value, say.numberUnitInCell(spec, text)), unit };
}

function readForm(form: NumberForm, text: string, context: NumberContext): Figure {
  const { spec, mark } = context;
  if (form.kind !== 'either' && form.grouped) {
    return repaired(form.value, say.numberGrouped(spec, text));
  }
  if (form.kind === 'plain') return plain(form.value);
  if (form.kind === 'sure') {
    return form.mark === (mark ?? '.')
      ? plain(form.value)
      : repaired(form.value, say.numberOtherMark(spec, text));
  }
  if (!canBeThousands(form.asThousands, spec)) return plain(form.asFraction);
  if (spec.whole || (mark !== null && form.mark !== mark)) {
    return repaired(form.asThousands, say.numberGrouped(spec, text));
  }
  return mark === null ? unread(say.numberTwoWays(spec, text)) : plain(form.asFraction);
}

/** Whether a column may hold a number of this size at all; if not, the mark parts a fraction. */
export function canBeThousands(value: number, spec: ColumnSpec): boolean {
  return spec.whole === true || Math.abs(value) <= (spec.range?.[1] ?? Infinity);
}
