import { describe, expect, test } from 'vitest';
import { dateOfDay, dayNumber, isIsoDate, nextDate, zoneClock } from '../../src/base/zone.ts';

// Clock changes: the IANA time zone database. Lisbon 2026: 01:00 → 02:00 on 29 March, 02:00 → 01:00
// on 25 October, both at 01:00 UTC. Kathmandu is 5 h 45 min ahead; Lord Howe shifts by half an hour.
const utc = (text: string) => Date.parse(`${text}Z`) / 60_000;

describe('a zone’s wall clock', () => {
  const lisbon = zoneClock('Europe/Lisbon');

  test('is one instant on a common day', () => {
    expect(lisbon.instants('2026-07-01', 8 * 60)).toEqual([utc('2026-07-01T07:00')]);
    expect(zoneClock('Asia/Kathmandu').instants('2026-07-01', 345)).toEqual([
      utc('2026-07-01T00:00'),
    ]);
  });
  test('runs over midnight', () => {
    expect(lisbon.instants('2026-07-01', 1440 + 30)).toEqual([utc('2026-07-01T23:30')]);
  });
  test('is two instants in the hour lived twice', () => {
    expect(lisbon.instants('2026-10-25', 90)).toEqual([
      utc('2026-10-25T00:30'),
      utc('2026-10-25T01:30'),
    ]);
    expect(lisbon.instants('2026-10-25', 30)).toEqual([utc('2026-10-24T23:30')]);
    expect(lisbon.instants('2026-10-25', 150)).toEqual([utc('2026-10-25T02:30')]);
  });
  test('reads a skipped time with the offset before', () => {
    expect(lisbon.instants('2026-03-29', 90)).toEqual([utc('2026-03-29T01:30')]);
    expect(lisbon.instants('2026-03-29', 150)).toEqual([utc('2026-03-29T01:30')]);
  });
  test('tells the hour, and where the next one begins', () => {
    expect(lisbon.hourAt(utc('2026-07-01T07:59'))).toBe(8);
    const half = zoneClock('Australia/Lord_Howe');
    expect(half.hourAt(utc('2026-06-30T13:30'))).toBe(0);
    expect(lisbon.hourStarts(utc('2026-03-29T00:20'), utc('2026-03-29T02:10'))).toEqual([
      utc('2026-03-29T01:00'),
      utc('2026-03-29T02:00'),
    ]);
  });
});

describe('dates', () => {
  test('count days without a zone', () => {
    expect(dayNumber('1970-01-02')).toBe(1);
    expect(dateOfDay(dayNumber('2024-02-28') + 1)).toBe('2024-02-29');
    expect(nextDate('2025-12-31')).toBe('2026-01-01');
  });
  test('must be of the calendar', () => {
    for (const text of ['2026-02-30', '2026-13-01', '26-01-01', '2026-1-1', '']) {
      expect(isIsoDate(text), text).toBe(false);
    }
    expect(isIsoDate('2024-02-29')).toBe(true);
  });
});
