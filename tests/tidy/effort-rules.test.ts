import { describe, expect, test } from 'vitest';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, type LogParts, makeLog } from '../helpers/make-log.ts';

/** Line-hours of each soak, worked out by hand beside each case. */
const soakHours = (parts: LogParts) =>
  tidySeason(makeLog(parts)).soaks?.map((soak) => soak.lineHours);
const day = {
  trip_id: 'T1',
  date: '2026-03-28',
  lines_in: clock('6:00'),
  lines_out: clock('16:00'),
};
const soak = { trip_id: 'T1', position: 'port-long' };

describe('line-hours of a soak', () => {
  test('time out less time in', () => {
    const soaks = [{ ...soak, time_in: clock('6:30'), time_out: clock('8:15') }];
    expect(soakHours({ trips: [day], soaks })).toEqual([1.75]);
  });

  test('across midnight', () => {
    const night = { ...day, lines_in: clock('20:00'), lines_out: clock('3:00') };
    const soaks = [
      { ...soak, time_in: clock('23:30'), time_out: clock('0:45') },
      { ...soak, time_in: clock('1:00'), time_out: clock('2:30') },
    ];
    expect(soakHours({ trips: [night], soaks })).toEqual([1.25, 1.5]);
  });

  test('hours where the clock times are absent; none where both are', () => {
    expect(soakHours({ trips: [day], soaks: [{ ...soak, hours: 2.5 }, soak] })).toEqual([
      2.5,
      null,
    ]);
  });

  test('the hour that clocks skip is not fished, the hour lived twice is', () => {
    // Lisbon 2026: clocks go 01:00 -> 02:00 on 29 March and 02:00 -> 01:00 on 25 October.
    const settings = { time_zone: 'Europe/Lisbon' };
    const night = { ...day, lines_in: clock('22:00'), lines_out: clock('5:00') };
    const soaks = [{ ...soak, time_in: clock('0:30'), time_out: clock('3:00') }];
    expect(soakHours({ settings, trips: [night], soaks })).toEqual([1.5]);
    const autumn = { ...night, date: '2026-10-24' };
    expect(soakHours({ settings, trips: [autumn], soaks })).toEqual([3.5]);
  });

  test('a soak out before in by the clock, in the hour lived twice, lasted minutes', () => {
    const settings = { time_zone: 'Europe/Lisbon' };
    const autumn = {
      ...day,
      date: '2026-10-24',
      lines_in: clock('22:00'),
      lines_out: clock('5:00'),
    };
    const soaks = [{ ...soak, time_in: clock('1:50'), time_out: clock('1:10') }];
    expect(soakHours({ settings, trips: [autumn], soaks })?.[0]).toBeCloseTo(20 / 60, 12);
  });
});

describe('a line does not fish while a fish is on it', () => {
  const soaks = [
    { ...soak, time_in: clock('7:00'), time_out: clock('9:00') },
    { trip_id: 'T1', position: 'port-short', time_in: clock('7:00'), time_out: clock('9:00') },
    { trip_id: 'T1', position: 'starboard-long', time_in: clock('7:00'), time_out: clock('9:00') },
    { trip_id: 'T1', position: 'port-short', time_in: clock('9:05'), time_out: clock('10:05') },
  ];
  const fight = (cells: object) => ({
    trip_id: 'T1',
    outcome: 'released' as const,
    position: 'port-long',
    time: clock('8:00'),
    fight_min: 30,
    ...cells,
  });
  const hoursWith = (fight_clears: 'none' | 'line' | 'side' | 'all', cells = {}) =>
    soakHours({ settings: { fight_clears }, trips: [day], soaks, bites: [fight(cells)] });

  test('by default the fight comes off its own soak', () => {
    expect(hoursWith('line')).toEqual([1.5, 2, 2, 1]);
  });
  test('or off nothing, its side, or all lines in the water at the bite', () => {
    expect(hoursWith('none')).toEqual([2, 2, 2, 1]);
    expect(hoursWith('side')).toEqual([1.5, 1.5, 2, 1]);
    expect(hoursWith('all')).toEqual([1.5, 1.5, 1.5, 1]);
  });
  test('whole, also past the end of the soak, but never below zero', () => {
    expect(hoursWith('line', { time: clock('8:50') })).toEqual([1.5, 2, 2, 1]);
    expect(hoursWith('line', { fight_min: 500 })).toEqual([0, 2, 2, 1]);
  });
  test('a miss, or a fish without fight minutes, takes nothing off', () => {
    expect(hoursWith('line', { outcome: 'missed' })).toEqual([2, 2, 2, 1]);
    expect(hoursWith('line', { fight_min: null })).toEqual([2, 2, 2, 1]);
  });
});
