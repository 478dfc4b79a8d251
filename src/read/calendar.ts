import { dateOfDay, dayNumber } from '../base/zone.ts';

/** The ISO 8601 date of a day, or null where the calendar has no such day. */
export function isoDate(year: number, month: number, day: number): string | null {
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** Day 1 of a spreadsheet's calendar is 1900-01-01, but it counts a 29 February 1900 that never was. */
const SPREADSHEET_DAY_ZERO = dayNumber('1899-12-30');

/** The ISO date of a spreadsheet's serial day number (from 1 March 1900 on). */
export function serialDate(serial: number): string {
  return dateOfDay(SPREADSHEET_DAY_ZERO + serial);
}

function daysIn(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
