import { isIsoDate } from '../base/zone.ts';
import { monthFromName } from '../read/month-names.ts';
import type { IdentifyingValues } from './identifying-values.ts';

const EDGE = '(?<![\\p{L}\\p{N}])';
const END = '(?![\\p{L}\\p{N}])';

const YEAR_FIRST = new RegExp(
  `${EDGE}(\\d{4})\\s*[-/.]\\s*(\\d{1,2})\\s*[-/.]\\s*(\\d{1,2})(?!\\p{N})`,
  'gu',
);
const YEAR_LAST = new RegExp(
  `${EDGE}(\\d{1,2})\\s*[-/.]\\s*(\\d{1,2})\\s*[-/.]\\s*(\\d{4}|\\d{2})${END}`,
  'gu',
);
const UNBROKEN = new RegExp(`${EDGE}(\\d{4})(\\d{2})(\\d{2})(?:T\\d{4,6}Z?)?${END}`, 'gu');
const DAY_AND_NAME = new RegExp(
  `${EDGE}(\\d{1,2})(?:st|nd|rd|th|\\.)?[\\s-]*(\\p{L}{3,12})\\.?[\\s,-]*(\\d{4}|\\d{2})${END}`,
  'giu',
);
const NAME_AND_DAY = new RegExp(
  `${EDGE}(\\p{L}{3,12})\\.?\\s*(\\d{1,2})(?:st|nd|rd|th)?,?\\s+(\\d{4})${END}`,
  'giu',
);
const CLOCK = new RegExp(
  `${EDGE}(\\d{1,2})[:h](\\d{2})(?::\\d{2})?\\s*([ap])?\\.?(?:m\\.?)?(?![\\p{N}:])`,
  'giu',
);
const HALF_DAY_CLOCK = new RegExp(
  `${EDGE}(\\d{1,2})(?:[.:](\\d{2}))?\\s*([ap])\\.?m\\.?${END}`,
  'giu',
);
const FOUR_DIGITS = new RegExp(`(?<![\\p{L}\\p{N}.,-])(0\\d)(\\d{2})${END}(?![.,]\\d)`, 'gu');

/** Days of the log that a text names in any usual way, day or month first, as they stand there. */
export function datesIn(text: string, { dates }: Pick<IdentifyingValues, 'dates'>): string[] {
  const readings = [
    ...matches(text, YEAR_FIRST, ([y, m, d]) => [isoDate(y, m, d), isoDate(y, d, m)]),
    ...matches(text, YEAR_LAST, ([a, b, y]) => [isoDate(y, a, b), isoDate(y, b, a)]),
    ...matches(text, UNBROKEN, ([y, m, d]) => [isoDate(y, m, d)]),
    ...matches(text, DAY_AND_NAME, ([d, name, y]) => [isoDate(y, monthNumber(name), d)]),
    ...matches(text, NAME_AND_DAY, ([name, d, y]) => [isoDate(y, monthNumber(name), d)]),
  ];
  return found(readings, (date) => dates.has(date));
}

/** Clock times of the log that a text names in any usual way, as they stand there. */
export function timesIn(text: string, { minutes }: Pick<IdentifyingValues, 'minutes'>): string[] {
  const readings = [
    ...matches(text, CLOCK, ([hours, rest, half]) => clockReadings(hours, rest, half)),
    ...matches(text, HALF_DAY_CLOCK, ([hours, rest, half]) => clockReadings(hours, rest, half)),
    ...matches(text, FOUR_DIGITS, ([hours, rest]) => clockReadings(hours, rest)),
  ];
  return found(readings, (minute) => minutes.has(minute));
}

interface Read<Value> {
  readonly text: string;
  readonly values: readonly Value[];
}

function matches<Value>(
  text: string,
  form: RegExp,
  read: (groups: readonly (string | undefined)[]) => readonly Value[],
): Read<Value>[] {
  return [...text.matchAll(form)].map((match) => ({
    text: match[0].trim(),
    values: read(match.slice(1)),
  }));
}

function found<Value>(
  readings: readonly Read<Value>[],
  isLogs: (value: Value) => boolean,
): string[] {
  const hits = readings.filter(({ values }) => values.some(isLogs));
  return [...new Set(hits.map(({ text }) => text))];
}

/** An ISO date, or an empty text for a day that does not exist. A year of two digits is of 2000 on. */
function isoDate(year = '', month: string | number | null = '', day = ''): string {
  const full = year.length === 2 ? `20${year}` : year;
  const date = `${full}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`;
  return isIsoDate(date) ? date : '';
}

function monthNumber(name = ''): number | null {
  return monthFromName(name);
}

/** Minutes after midnight; of a clock time without a half of the day, both. */
function clockReadings(hours = '', rest = '0', half?: string): number[] {
  const [hour, minute] = [Number(hours), Number(rest)];
  if (hour > 24 || minute > 59) return [];
  if (half !== undefined) {
    const isAfternoon = half.toLowerCase() === 'p';
    return hour > 12 ? [] : [((hour % 12) + (isAfternoon ? 12 : 0)) * 60 + minute];
  }
  const own = (hour % 24) * 60 + minute;
  return hour <= 12 ? [own, (own + 720) % 1440] : [own];
}
