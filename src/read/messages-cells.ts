import { shownText } from './clean-text.ts';
import type { ColumnSpec } from './column-spec.ts';

/** A message about a cell: the rule's name, what was found, and what would mend it. */
export interface Message {
  readonly code: string;
  readonly text: string;
  readonly remedy: string;
}

/** The text is no number. */
export function numberUnreadable(spec: ColumnSpec, text: string): Message {
  return {
    code: 'number-unreadable',
    text: `${spec.name} "${shownText(text)}" is no number.`,
    remedy: `Write the number alone${inUnit(spec)}, or leave the cell empty.`,
  };
}

/** A number that cannot be true of this column. */
export function numberOutOfRange(spec: ColumnSpec, text: string, value: number): Message {
  const [least, most] = spec.range ?? [0, 0];
  return {
    code: 'number-out-of-range',
    text: `${spec.name} "${shownText(text)}"${Number.isFinite(value) ? '' : ' is no finite number and'} is outside ${least} to ${most}${inUnit(spec)}.`,
    remedy:
      spec.unit === undefined
        ? 'Correct the number, or leave the cell empty.'
        : `Correct the number; if it stands in another unit, say so in the header (see the units of ${spec.name}).`,
  };
}

/** A count with a fraction. */
export function numberNotWhole(spec: ColumnSpec, text: string): Message {
  return {
    code: 'number-not-whole',
    text: `${spec.name} "${shownText(text)}" is a count and must be a whole number.`,
    remedy: 'Write a whole number, or leave the cell empty.',
  };
}

/** `1,250` in a file that uses both marks for fractions. */
export function numberTwoWays(spec: ColumnSpec, text: string): Message {
  return {
    code: 'number-two-ways',
    text: `${spec.name} "${shownText(text)}" may be a thousand and more, or one and a fraction.`,
    remedy: 'Write it without a thousands mark and with a decimal point.',
  };
}

/** `12:30` in a column of minutes. */
export function durationTwoWays(spec: ColumnSpec, text: string): Message {
  return {
    code: 'duration-two-ways',
    text: `${spec.name} "${shownText(text)}" may be hours and minutes, or minutes and seconds.`,
    remedy: `Write the number alone${inUnit(spec)}, or say "mm:ss" or "hh:mm" in the header.`,
  };
}

/** A thousands mark was taken out. */
export function numberGrouped(spec: ColumnSpec, text: string): Message {
  return {
    code: 'thousands-mark',
    text: `${spec.name} "${shownText(text)}" was read with a thousands mark.`,
    remedy: 'Nothing to do; without the mark it would need no repair.',
  };
}

/** A fraction set with the mark that the rest of the file does not use. */
export function numberOtherMark(spec: ColumnSpec, text: string): Message {
  return {
    code: 'decimal-mark',
    text: `${spec.name} "${shownText(text)}" was read with the other decimal mark than the rest of the file.`,
    remedy: 'Nothing to do; use one decimal mark throughout and it needs no repair.',
  };
}

/** The cell names its own unit. */
export function numberUnitInCell(spec: ColumnSpec, text: string): Message {
  return {
    code: 'unit-in-cell',
    text: `${spec.name} "${shownText(text)}" names its unit and was read${inUnit(spec)}.`,
    remedy: 'Nothing to do; a unit belongs in the header, and the cell holds the number alone.',
  };
}

/** A currency sign, "about" or a word such as "lines" was taken off. */
export function numberSignsDropped(spec: ColumnSpec, text: string): Message {
  return {
    code: 'number-signs-dropped',
    text: `${spec.name} "${shownText(text)}" was read as the number alone.`,
    remedy: 'Nothing to do; the number alone would need no repair.',
  };
}

function inUnit(spec: ColumnSpec): string {
  return spec.unit === undefined ? '' : ` in ${UNIT_NAMES[spec.unit] ?? spec.unit}`;
}

const UNIT_NAMES: Readonly<Record<string, string>> = {
  m: 'metres',
  cm: 'centimetres',
  kn: 'knots',
  c: 'degrees Celsius',
  kg: 'kilograms',
  lb: 'pounds',
  s: 'seconds',
  min: 'minutes',
  h: 'hours',
};
