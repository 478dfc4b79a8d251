import { formatCount, RANGE_DASH, THIN_SPACE } from './format-number.ts';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** Minutes as hours and minutes: `0 min`, `35 min`, `4 h`, `4 h 20 min`. */
export function formatMinutes(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole - 60 * hours;
  const parts = [
    hours > 0 ? `${formatCount(hours)}${THIN_SPACE}h` : '',
    rest > 0 || hours === 0 ? `${rest}${THIN_SPACE}min` : '',
  ];
  return parts.filter((part) => part !== '').join(' ');
}

/** Seconds as minutes and seconds: `8 s`, `2 min 5 s`. */
export function formatSeconds(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole}${THIN_SPACE}s`;
  const rest = whole % 60;
  const minutes = formatMinutes(Math.floor(whole / 60));
  return rest === 0 ? minutes : `${minutes} ${rest}${THIN_SPACE}s`;
}

/** Minutes after midnight as a clock time, 24 hours round: `06:05`; 1500 is `01:00`. */
export function formatClock(minutesAfterMidnight: number): string {
  const whole = ((Math.round(minutesAfterMidnight) % 1440) + 1440) % 1440;
  return `${twoDigits(Math.floor(whole / 60))}:${twoDigits(whole % 60)}`;
}

/** An ISO date as `14 March 2025`; text that is no ISO date comes back as it stood. */
export function formatDate(iso: string): string {
  const parts = dateParts(iso);
  return parts === null ? iso : `${parts.day} ${parts.month} ${parts.year}`;
}

/** First and last day, saying month and year once where they are the same: `3–28 April 2025`. */
export function formatDateRange(from: string, to: string): string {
  const [a, b] = [dateParts(from), dateParts(to)];
  if (a === null || b === null || from === to)
    return formatDate(from === to ? from : `${from} to ${to}`);
  if (a.year !== b.year) return `${formatDate(from)} to ${formatDate(to)}`;
  if (a.month !== b.month) return `${a.day} ${a.month} to ${formatDate(to)}`;
  return `${a.day}${RANGE_DASH}${formatDate(to)}`;
}

/** The level `2025-03` of the factor month as `March 2025`; other text as it stood. */
export function formatMonth(level: string): string {
  const parts = dateParts(`${level}-01`);
  return parts === null ? level : `${parts.month} ${parts.year}`;
}

/** The name of a calendar month, 1 to 12; empty for any other number. */
export function monthName(month: number): string {
  return MONTHS[month - 1] ?? '';
}

/** The level `2025-03` as `Mar`, for an axis that carries the year elsewhere. */
export function formatMonthShort(level: string): string {
  return dateParts(`${level}-01`)?.month.slice(0, 3) ?? level;
}

interface DateParts {
  readonly day: number;
  readonly month: string;
  readonly year: string;
}

function dateParts(iso: string): DateParts | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  const month = MONTHS[Number(match?.[2]) - 1];
  if (match === null || month === undefined) return null;
  return { day: Number(match[3]), month, year: match[1] ?? '' };
}

function twoDigits(value: number): string {
  return String(value).padStart(2, '0');
}
