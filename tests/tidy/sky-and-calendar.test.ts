import { describe, expect, test } from 'vitest';
import { beaufortForce, beaufortRange } from '../../src/tidy/beaufort.ts';
import { weekOf } from '../../src/tidy/calendar.ts';
import { MOON_EIGHTHS, moonEighth } from '../../src/tidy/moon.ts';
import { lightAt } from '../../src/tidy/sunlight.ts';

const utc = (text: string) => Date.parse(`${text}Z`) / 60_000;

describe('Beaufort force', () => {
  test('has the limits of the WMO scale in knots', () => {
    // WMO Beaufort scale; a common misprint gives 11-15 and 16-21 for forces 4 and 5.
    const firstOfForce = [0, 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64];
    expect(firstOfForce.map(beaufortForce)).toEqual(firstOfForce.map((_, force) => force));
    expect([3, 6, 10, 16, 21, 27, 33, 40, 47, 55, 63].map(beaufortForce)).toEqual([
      1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11,
    ]);
    expect([beaufortRange(0), beaufortRange(4), beaufortRange(12)]).toEqual([
      'under 1 kn',
      '11–16 kn',
      '64 kn or more',
    ]);
  });
  test('is taken of whole knots, so 16 mph stays where 14 kn is', () => {
    expect(beaufortForce(16 / 1.150779448)).toBe(beaufortForce(14));
    expect(beaufortForce(16.4)).toBe(4);
  });
});

describe('ISO weeks', () => {
  test('belong to the year of their Thursday', () => {
    // ISO 8601: 2026-01-01 is a Thursday; 2027-01-01 a Friday, still in week 53 of 2026.
    expect(weekOf('2026-01-01')).toBe('2026-W01');
    expect(weekOf('2025-12-29')).toBe('2026-W01');
    expect(weekOf('2027-01-03')).toBe('2026-W53');
    expect(weekOf('2027-01-04')).toBe('2027-W01');
  });
});

describe('the moon', () => {
  test('is new and at last quarter when Meeus says so', () => {
    // Meeus, Astronomical Algorithms, 2nd ed.: example 49.a, new moon 1977-02-18 03:37 TD;
    // example 49.b, last quarter of JDE 2467636.49186, that is 2044-01-21 23:48 TD.
    expect(moonEighth(utc('1977-02-18T03:37'))).toBe('new');
    expect(moonEighth(utc('2044-01-21T23:48'))).toBe('last quarter');
    // A quarter moon lies 45° from the edge of its eighth: about 1.8 days either way.
    expect(moonEighth(utc('2044-01-23T12:00'))).toBe('last quarter');
    expect(moonEighth(utc('2044-01-24T12:00'))).toBe('waning crescent');
  });
  test('goes through all its eighths in a synodic month, in order', () => {
    const start = utc('1977-02-18T03:37');
    const met = MOON_EIGHTHS.map((_, at) => moonEighth(start + (at * 29.53 * 1440) / 8));
    expect(met).toEqual(MOON_EIGHTHS);
  });
});

describe('light by the sun’s elevation', () => {
  // Reda & Andreas, NREL/TP-560-34302: Boulder 39.742476 N 105.1786 W, 2003-10-17: sunrise 06:12:43
  // at UTC−7. Elevation 0 lies well inside the band from −6° to +6°.
  const boulder = (text: string) => lightAt(utc(text), 39.742476, -105.1786);
  test('is dawn at sunrise, day at noon, dusk at sunset, night at midnight', () => {
    expect(boulder('2003-10-17T13:13')).toBe('dawn');
    expect(boulder('2003-10-17T19:00')).toBe('day');
    expect(boulder('2003-10-18T00:19')).toBe('dusk');
    expect(boulder('2003-10-17T07:00')).toBe('night');
  });
  test('is always given, also where the sun does not set', () => {
    // NOAA solar equations: at 70 N the sun stays up on 20 June.
    expect(lightAt(utc('2024-06-20T12:00'), 70, 20)).toBe('day');
    expect(['dawn', 'dusk', 'day']).toContain(lightAt(utc('2024-06-19T23:00'), 70, 20));
  });
});
