import { isoDate, serialDate } from './calendar.ts';
import { monthFromName } from './month-names.ts';

/** Three numbers of which one is the year and the column must say which of the others is the day. */
export interface NumericDate {
  readonly kind: 'numeric';
  readonly first: number;
  readonly second: number;
  /** The year if it stands last. */
  readonly year: number;
  /** The reading with a two-digit year first; null where only the last number can be the year. */
  readonly yearFirst: {
    readonly year: number;
    readonly month: number;
    readonly day: number;
  } | null;
}

/** What the text of one date says by itself. */
export type DateForm =
  /** ISO 8601 as the log wants it. */
  | { readonly kind: 'iso'; readonly iso: string }
  /** Another form that names the day beyond doubt; `zoned`: with a time of another clock. */
  | { readonly kind: 'sure'; readonly iso: string; readonly zoned: boolean }
  | NumericDate
  | { readonly kind: 'no-year' }
  /** A date in shape, but of a day that the calendar lacks. */
  | { readonly kind: 'no-day' };

const TIME_OF_DAY =
  /(?:t|,?\s+)\d{1,2}[:.]\d{2}(?::\d{2}(?:\.\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(z|[+-]\d{2}:?\d{2})?$/i;
const DAY_NAME = '(?:mon|tues?|wed|thu|thurs?|fri|sat|sun)(?:day|nesday|rsday|sday|urday)?\\.?';
const WEEKDAY = new RegExp(`^${DAY_NAME},?\\s+|\\s+\\(?${DAY_NAME}\\)?$`, 'gi');

/**
 * Reads the shape of a date: ISO 8601, year first, two numbers and a year, month names in any
 * place, `20240305`, a spreadsheet's serial day (with or without a fraction). A weekday and a time
 * of day beside the date are passed over. Null for other text.
 */
export function dateForm(text: string): DateForm | null {
  const iso = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (iso !== null) return dayOf('iso', iso);
  const zoned = TIME_OF_DAY.exec(text)?.[1] !== undefined;
  const bare = text
    .replace(TIME_OF_DAY, '')
    .replace(WEEKDAY, '')
    .replace(/[.,;]$/, '')
    .trim();
  const yearFirst =
    /^(\d{4})\s*[-/. ]\s*(\d{1,2})\s*[-/. ]\s*(\d{1,2})$/.exec(bare) ??
    /^((?:19|20)\d{2})(\d{2})(\d{2})$/.exec(bare);
  if (yearFirst !== null) return dayOf('sure', yearFirst, zoned);
  const numeric = /^(\d{1,2})\s*[-/. ]\s*(\d{1,2})\s*[-/. ]\s*(\d{4}|\d{2}|'\d{2})$/.exec(bare);
  if (numeric !== null) return numericForm(numeric);
  return namedForm(bare) ?? serialForm(bare);
}

function dayOf(
  kind: 'iso' | 'sure',
  [, year, month, day]: RegExpExecArray,
  zoned = false,
): DateForm {
  const iso = isoDate(Number(year), Number(month), Number(day));
  if (iso === null) return { kind: 'no-day' };
  return kind === 'iso' ? { kind, iso } : { kind, iso, zoned };
}

function numericForm([, first = '', second, third = '']: RegExpExecArray): DateForm {
  const mayBeYearFirst = first.length === 2 && third.length === 2;
  return {
    kind: 'numeric',
    first: Number(first),
    second: Number(second),
    year: fullYear(third.replace("'", '')),
    yearFirst: mayBeYearFirst
      ? { year: fullYear(first), month: Number(second), day: Number(third) }
      : null,
  };
}

/** `5 Mar 2024`, `Mar 5, 2024`, `5th-March-24`, `2024-Mar-05`; without a year it cannot stand. */
function namedForm(text: string): DateForm | null {
  const parts = text
    .replace(/(\d)(?:st|nd|rd|th|er|º|\.)(?=[\s,/-]|$)/gi, '$1')
    .replace(/\b(?:of|de|the)\b/gi, ' ')
    .replace(/(\d)(\p{L})/gu, '$1 $2')
    .replace(/(\p{L})\.?(\d)/gu, '$1 $2')
    .split(/[\s,./-]+/)
    .filter((part) => part !== '');
  if (parts.length < 2 || parts.length > 3) return null;
  const named = parts.findIndex((part) => monthFromName(part) !== null);
  const month = monthFromName(parts[named] ?? '');
  const numbers = parts.filter((_, index) => index !== named);
  if (month === null || !numbers.every((part) => /^'?\d{1,4}$/.test(part))) return null;
  if (numbers.length === 1) return { kind: 'no-year' };
  const [left = '', right = ''] = numbers.map((part) => part.replace("'", ''));
  const [year, day] = left.length === 4 ? [left, right] : [right, left];
  if (day.length > 2 || year.length === 1 || year.length === 3) return null;
  const iso = isoDate(fullYear(year), month, Number(day));
  return iso === null ? { kind: 'no-day' } : { kind: 'sure', iso, zoned: false };
}

/** Serial days of the years 1954 to 2119; smaller and larger numbers are no dates of a log. */
function serialForm(text: string): DateForm | null {
  const match = /^([2-7]\d{4})(?:[.,]\d+)?$/.exec(text);
  return match === null ? null : { kind: 'sure', iso: serialDate(Number(match[1])), zoned: false };
}

/** Two digits are a year from 1970 to 2069, as in POSIX (there from 1969). */
function fullYear(digits: string): number {
  const year = Number(digits);
  if (digits.length > 2) return year;
  return year < 70 ? 2000 + year : 1900 + year;
}
