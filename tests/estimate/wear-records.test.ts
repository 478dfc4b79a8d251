import { describe, expect, test } from 'vitest';
import { wearByLineType } from '../../src/estimate/wear-by-line-type.ts';
import { wearStretches } from '../../src/estimate/wear-power-law.ts';
import { cutsLives, wearRecords } from '../../src/estimate/wear-records.ts';
import { spoolLives } from '../../src/estimate/wear-spools.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, makeLog } from '../helpers/make-log.ts';

// One rod, three trips, a new filling on the morning of the third; each soak is two hours. Worked out
// by hand.
//   T1: hooked (1), missed, hooked (2)           on filling 1
//   T2: broke off (3), hooked (4)                on filling 1
//   T3: pulled (1), broke off (2)                on filling 2
const ALL = { only: {}, from: null, to: null };
const day = (date: string, trip_id: string) => ({ trip_id, date, lines_in: clock('7:00') });
const bite = (trip_id: string, time: string, rest: object) => ({
  trip_id,
  position: 'port-long',
  time: clock(time),
  outcome: 'released' as const,
  ...rest,
});
const log = makeLog({
  trips: [day('2026-01-03', 'T1'), day('2026-01-05', 'T2'), day('2026-01-09', 'T3')],
  soaks: ['T1', 'T2', 'T3'].map((trip_id) => ({
    trip_id,
    position: 'port-long',
    rod: 'A',
    time_in: clock('8:00'),
    time_out: clock('10:00'),
  })),
  bites: [
    bite('T1', '8:30', {}),
    bite('T1', '9:00', { outcome: 'missed' }),
    bite('T1', '9:30', {}),
    bite('T2', '9:30', {}),
    bite('T2', '8:30', { outcome: 'lost', lost_to: 'line_broke' }),
    bite('T3', '8:30', { outcome: 'lost', lost_to: 'pulled' }),
    bite('T3', '9:00', { outcome: 'lost', lost_to: 'line_broke' }),
  ],
  spools: [
    { rod: 'A', date: '2026-01-01', line_type: 'mono' },
    { rod: 'A', date: '2026-01-09', line_type: 'mono' },
    { rod: 'A', date: '2026-02-01', line_type: 'mono' },
  ],
});
const season = tidySeason(log);

describe('what a log tells of wear', () => {
  const records = wearRecords(season, ALL);

  test('every hooked fish has its age on the line, in the order they came', () => {
    const hooked = records.bites.filter(({ fights }) => fights > 0);
    expect(hooked.map(({ age }) => age.fights)).toEqual([1, 2, 3, 4, 1, 2]);
    expect(hooked.map(({ breaks }) => breaks)).toEqual([0, 0, 1, 0, 0, 1]);
    expect(hooked.map(({ pulled }) => pulled)).toEqual([0, 0, 0, 0, 1, 0]);
    expect(records.fights).toEqual({ all: 6, known: 6 });
    expect(records.lost).toEqual({ all: 3, known: 3 });
  });

  test('a filling that was never fished has no life; a break does not end one', () => {
    const lives = spoolLives(season, records, ALL);
    expect(lives.map(({ age }) => age)).toEqual([
      { fights: 4, trips: 2, lineHours: 4 },
      { fights: 2, trips: 1, lineHours: 2 },
    ]);
    expect(lives.map(({ firstBreak }) => firstBreak)).toEqual([
      { fights: 3, trips: 2, lineHours: 2.5 },
      { fights: 2, trips: 1, lineHours: 1 },
    ]);
  });

  test('each trip is a stretch of the spool’s life', () => {
    expect(wearStretches(records.bites)).toEqual([
      { cluster: 'T1', from: 0, to: 2, breaks: [] },
      { cluster: 'T2', from: 2, to: 4, breaks: [3] },
      { cluster: 'T3', from: 0, to: 2, breaks: [2] },
    ]);
  });

  test('dates cut the watch and not the age: the first trip stays in the age', () => {
    const later = { ...ALL, from: '2026-01-04' };
    const cut = wearRecords(season, later);
    expect(wearStretches(cut.bites)[0]).toEqual({ cluster: 'T2', from: 2, to: 4, breaks: [3] });
    expect(spoolLives(season, cut, later).map(({ isWhole }) => isWhole)).toEqual([false, true]);
    const { firstBreaks, notes } = wearByLineType(season, { ...later, level: 0.95, seed: 1 });
    expect(firstBreaks[0]?.curves[0]?.curve.lives).toBe(1);
    expect(notes.join(' ')).toContain('1 spool fished before the dates asked for');
  });
});

describe('wear by line type', () => {
  test('counts and rates by hand', () => {
    const { lines } = wearByLineType(season, { ...ALL, level: 0.95, seed: 1 });
    const [mono] = lines;
    expect(lines).toHaveLength(1);
    expect(mono).toMatchObject({ fights: 6, breaks: 2, pulled: 1, bites: 7, fightsPerTrip: 2 });
    expect(mono?.lineHours).toBeCloseTo(6, 12);
    expect(mono?.breaksPerFight).toMatchObject({ kind: 'estimated', estimate: 2 / 6 });
    expect(mono?.breaksPerLineHour).toMatchObject({ kind: 'estimated', estimate: 2 / 6 });
    expect(mono?.bands.map(({ band, fights }) => [band, fights])).toEqual([['1-5 trips', 6]]);
  });

  test('a tallied row stands for its fish: the breaks are its last fights', () => {
    const tallied = tidySeason({
      ...log,
      bites: makeLog({
        trips: [],
        bites: [
          { trip_id: 'T1', outcome: 'released', rod: 'A', count: 5 },
          { trip_id: 'T1', outcome: 'lost', lost_to: 'line_broke', rod: 'A', count: 2 },
        ],
      }).bites,
    });
    const { bites } = wearRecords(tallied, ALL);
    expect(wearStretches(bites)).toEqual([{ cluster: 'T1', from: 0, to: 7, breaks: [7, 6] }]);
  });

  test('fish on a rod without a filling are told, and those lost nobody knows how', () => {
    const vague = tidySeason({
      ...log,
      bites: makeLog({
        trips: [],
        bites: [
          { trip_id: 'T1', outcome: 'released' },
          { trip_id: 'T1', outcome: 'lost', rod: 'A' },
        ],
      }).bites,
    });
    const { notes } = wearByLineType(vague, { ...ALL, level: 0.95, seed: 1 });
    expect(notes.join(' ')).toContain('Of 2 fights, 1 were on a line of known age');
    expect(notes.join(' ')).toContain('is known of 0 of 1 lost fish');
  });

  test('says what is missing where nothing can be told', () => {
    const wear = (parts: object) =>
      wearByLineType(tidySeason({ ...log, ...parts }), { ...ALL, level: 0.95, seed: 1 }).refused;
    expect(wear({ spools: null })).toContain('spools.csv');
    expect(wear({ spools: [] })).toContain('no filling yet');
    expect(wear({ bites: [], soaks: null })).toContain('Write the rod');
    expect(
      wearByLineType(season, { ...ALL, only: { bait: ['scad'] }, level: 0.95, seed: 1 }).refused,
    ).toContain('cannot be cut down to one bait');
  });

  test('a line’s life can be cut down to a rod or a line, not to a bait', () => {
    expect(cutsLives({ rod: ['A'], line_type: ['mono'] })).toEqual([]);
    expect(cutsLives({ rod: ['A'], bait: ['scad'] })).toEqual(['bait']);
    const other = wearRecords(season, { ...ALL, only: { rod: ['B'] } });
    expect(other.bites).toEqual([]);
    expect(other.fights).toEqual({ all: 0, known: 0 });
  });
});
