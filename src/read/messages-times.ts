import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** The text is no time of day. */
export function clockUnreadable(column: string, text: string): Message {
  return {
    code: 'clock-unreadable',
    text: `${column} "${shownText(text)}" is no time of day.`,
    remedy: 'Write hours and minutes as 07:30 or 19:30, or leave the cell empty.',
  };
}

/** `7.5` or `0.30`, which can be read in more than one way. */
export function clockTwoWays(column: string, text: string): Message {
  return {
    code: 'clock-two-ways',
    text: `${column} "${shownText(text)}" may be hours and minutes, hours with a fraction, or a fraction of a day.`,
    remedy: 'Write hours and minutes with a colon, as 07:30.',
  };
}

/** A time without am or pm among times that have it. */
export function clockHalfUnsaid(column: string, text: string): Message {
  return {
    code: 'clock-half-unsaid',
    text: `${column} "${shownText(text)}" lacks the am or pm that the other times carry.`,
    remedy: 'Add am or pm, or write the time in 24 hours as 19:30.',
  };
}

/** A time of day in another form than HH:MM. */
export function clockRespelt(column: string, text: string): Message {
  return {
    code: 'clock-respelt',
    text: `${column} "${shownText(text)}" was read as a time of day.`,
    remedy: 'Nothing to do; written as 07:30 it would need no repair.',
  };
}

/** The text is no date. */
export function dateUnreadable(column: string, text: string): Message {
  return {
    code: 'date-unreadable',
    text: `${column} "${shownText(text)}" is no date.`,
    remedy: 'Write year, month and day as 2024-03-05.',
  };
}

/** A date without its year. */
export function dateWithoutYear(column: string, text: string): Message {
  return {
    code: 'date-without-year',
    text: `${column} "${shownText(text)}" does not say the year.`,
    remedy: 'Write year, month and day as 2024-03-05.',
  };
}

/** A day that the calendar does not have, read in the order of the column. */
export function dateNotInCalendar(column: string, text: string, order: string): Message {
  return {
    code: 'date-not-in-calendar',
    text: `${column} "${shownText(text)}", read ${order}, is no day of the calendar.`,
    remedy: 'Correct the date, and write it as 2024-03-05.',
  };
}

/** A date of another century than any log. */
export function dateAbsurd(column: string, text: string, iso: string): Message {
  return {
    code: 'date-absurd',
    text: `${column} "${shownText(text)}" would be ${iso}, outside 1950 to 2100.`,
    remedy: 'Correct the year, and write the date as 2024-03-05.',
  };
}

/** A date with a time of another clock beside it. */
export function dateZoned(column: string, text: string, iso: string): Message {
  return {
    code: 'date-of-another-clock',
    text: `${column} "${shownText(text)}" carries a time of another zone; its date ${iso} was taken as the boat's.`,
    remedy: 'Check the date, and write it by the clock of the boat.',
  };
}

/** A date in another form than ISO 8601. */
export function dateRespelt(column: string, text: string, iso: string): Message {
  return {
    code: 'date-respelt',
    text: `${column} "${shownText(text)}" was read as ${iso}.`,
    remedy: 'Nothing to do; written as year-month-day it would need no repair.',
  };
}

/** The column holds no date that tells days from months. */
export function dateOrderUnknown(found: {
  name: string;
  header: string;
  line: number;
  text: string;
}): string {
  return `${found.name}, line ${found.line}, column "${found.header}": "${shownText(found.text)}" may be day/month or month/day, and no date of the column decides it. Set date_order: dmy (day first) or date_order: mdy (month first) in season.yaml.`;
}

/** Some dates of the column can only be day first, others only month first. */
export function dateOrderMixed(found: {
  name: string;
  header: string;
  dayFirst: { line: number; text: string };
  monthFirst: { line: number; text: string };
}): string {
  const { name, header, dayFirst, monthFirst } = found;
  return `${name}, column "${header}": "${shownText(dayFirst.text)}" on line ${dayFirst.line} can only be day first, "${shownText(monthFirst.text)}" on line ${monthFirst.line} only month first, so the other dates cannot be read. Set date_order: dmy or date_order: mdy in season.yaml, or write all dates as 2024-03-05.`;
}
