import { expect, test } from 'vitest';
import {
  formatClock,
  formatDate,
  formatDateRange,
  formatMinutes,
  formatMonth,
  formatMonthShort,
  formatSeconds,
} from '../../src/base/format-time.ts';

const spaced = (text: string) => text.replaceAll('\u202f', ' ');

test('minutes read as a watch would say them', () => {
  expect([0, 35, 59.6, 240, 260.4, 60000].map(formatMinutes).map(spaced)).toEqual([
    '0 min',
    '35 min',
    '1 h',
    '4 h',
    '4 h 20 min',
    '1,000 h',
  ]);
});

test('seconds stay seconds below a minute', () => {
  expect([0, 8, 59.4, 60, 125].map(formatSeconds).map(spaced)).toEqual([
    '0 s',
    '8 s',
    '59 s',
    '1 min',
    '2 min 5 s',
  ]);
});

test('the clock runs round', () => {
  expect([0, 365, 1439, 1500, -30].map(formatClock)).toEqual([
    '00:00',
    '06:05',
    '23:59',
    '01:00',
    '23:30',
  ]);
});

test('dates and their ranges say month and year once', () => {
  expect(formatDate('2025-03-14')).toBe('14 March 2025');
  expect(formatDateRange('2025-03-14', '2025-03-14')).toBe('14 March 2025');
  expect(formatDateRange('2025-04-03', '2025-04-28')).toBe('3–28 April 2025');
  expect(formatDateRange('2025-01-03', '2025-04-28')).toBe('3 January to 28 April 2025');
  expect(formatDateRange('2024-11-30', '2025-04-01')).toBe('30 November 2024 to 1 April 2025');
});

test('months by their level', () => {
  expect(formatMonth('2025-03')).toBe('March 2025');
  expect(formatMonthShort('2025-03')).toBe('Mar');
});

test('what is no date stands as it was written', () => {
  expect(formatDate('not recorded')).toBe('not recorded');
  expect(formatDate('2025-13-01')).toBe('2025-13-01');
  expect(formatDateRange('soon', '2025-04-01')).toBe('soon to 2025-04-01');
  expect(formatMonth('(none)')).toBe('(none)');
  expect(formatMonthShort('(none)')).toBe('(none)');
});
