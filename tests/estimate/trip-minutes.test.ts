import { describe, expect, test } from 'vitest';
import { fightLengths } from '../../src/estimate/fight-length.ts';
import { caughtPerFishingHour } from '../../src/estimate/fishing-hour.ts';
import { outcomeShares } from '../../src/estimate/outcome-shares.ts';
import { dropBackBin, fightBin } from '../../src/estimate/release-bins.ts';
import { tripMinutes } from '../../src/estimate/trip-minutes.ts';
import { HOOKED_IN } from '../../src/read/rows.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, type LogParts, makeLog } from '../helpers/make-log.ts';

const PART = { only: {}, from: null, to: null, level: 0.95 };

/** Two lines from 06:00 to 10:00; one is out of the water from 07:00 to 07:30; a fight of 30 min. */
const DAY: LogParts = {
  trips: [{ trip_id: 'a', date: '2026-03-01', lines_in: clock('6:00'), lines_out: clock('10:00') }],
  soaks: [
    { trip_id: 'a', position: 'port-long', time_in: clock('6:00'), time_out: clock('7:00') },
    { trip_id: 'a', position: 'port-long', time_in: clock('7:30'), time_out: clock('10:00') },
    { trip_id: 'a', position: 'pitch', time_in: clock('6:30'), time_out: clock('9:45') },
  ],
  bites: [
    { trip_id: 'a', outcome: 'released', position: 'pitch', time: clock('8:00'), fight_min: 30 },
    { trip_id: 'a', outcome: 'kept', position: 'pitch', time: clock('8:40') },
    { trip_id: 'a', outcome: 'missed', position: 'pitch', time: clock('9:00') },
  ],
};

describe('where the hours of a trip went, worked by hand', () => {
  test('every line’s four hours are shared out', () => {
    const { trips, leftOut, refused } = tripMinutes(tidySeason(makeLog(DAY)), PART);
    expect(refused).toBeNull();
    expect(leftOut).toBe(0);
    // Gross 1 + 2.5 + 3.25 = 6.75 h less the fight's 0.5; gap 0.5; ends 0.5 + 0.25: 8 h in all.
    expect(trips[0]).toMatchObject({ fishing: 6.25, fish_on: 0.5, between: 0.5, ends: 0.75 });
  });

  test('one trip has shares without an interval, so none is told', () => {
    const { states } = tripMinutes(tidySeason(makeLog(DAY)), PART);
    expect(states.map(({ share }) => share.kind)).toEqual(Array(4).fill('not-estimable'));
  });

  test('a trip without lines out is left out; without soaks.csv nothing is told', () => {
    const open = { ...DAY, trips: DAY.trips.map((trip) => ({ ...trip, lines_out: null })) };
    expect(tripMinutes(tidySeason(makeLog(open)), PART)).toMatchObject({ trips: [], leftOut: 1 });
    const { refused } = tripMinutes(tidySeason(makeLog({ trips: DAY.trips })), PART);
    expect(refused).toMatch(/^When lines went in and came out is not recorded/);
  });

  test('it cannot be cut down to one bait', () => {
    const part = { ...PART, only: { bait: ['squid'] } };
    expect(tripMinutes(tidySeason(makeLog(DAY)), part).refused).toBe(
      'The minutes of a trip cannot be cut down to one bait.',
    );
  });

  test('two fish in four hours are half a fish an hour', () => {
    const { caught, hours } = caughtPerFishingHour(tidySeason(makeLog(DAY)), PART);
    expect(hours).toBe(4);
    expect(caught).toMatchObject({ kind: 'estimated', estimate: 0.5 });
  });
});

test('a lost fish counts as on for at least so long', () => {
  const fights = [
    ['released', 5],
    ['lost', 8],
    ['kept', 10],
    ['released', 20],
    ['kept', null],
  ] as const;
  const log = makeLog({
    trips: [{ trip_id: 'a', date: '2026-03-01' }],
    bites: fights.map(([outcome, fight_min]) => ({
      trip_id: 'a',
      outcome,
      fight_min,
      line_type: 'mono',
    })),
  });
  const [mono] = fightLengths(tidySeason(log), 'line_type', PART);
  // 3/4 after 5; the lost fish leaves two at 8; 3/8 after 10, which is the first at or below half.
  expect(mono).toMatchObject({ level: 'mono', fights: 4, caught: 3, notTimed: 1 });
  expect(mono?.curve.steps.map(({ survival }) => survival)).toEqual([0.75, 0.375, 0]);
  expect(mono?.median).toMatchObject({ kind: 'estimated', estimate: 10 });
});

test('shares divide by the fish whose place is logged and add up to one', () => {
  const places = ['corner', 'corner', 'deep', 'foul', null] as const;
  const log = makeLog({
    trips: ['a', 'b'].map((trip_id) => ({ trip_id, date: '2026-03-01' })),
    bites: ['a', 'b'].flatMap((trip_id) =>
      places.map((hooked_in) => ({ trip_id, outcome: 'kept' as const, hooked_in, drop_back_s: 7 })),
    ),
  });
  const [row] = outcomeShares(tidySeason(log).bites, {
    outcomes: HOOKED_IN,
    outcomeOf: ({ hooked_in }) => hooked_in,
    groupOf: ({ drop_back_s }) => dropBackBin(drop_back_s),
    order: () => 0,
    together: ['deep', 'foul'],
    level: 0.95,
  });
  expect(row).toMatchObject({ group: '6–10 s', fish: 8, trips: 2 });
  expect(row?.counts).toEqual({ corner: 4, mouth: 0, deep: 2, foul: 2 });
  expect(row?.shares.corner).toMatchObject({ estimate: 0.5 });
  expect(row?.together).toMatchObject({ estimate: 0.5 });
});

test('bins hold their last whole number', () => {
  expect([0, 5, 5.4, 6, 10, 15, 15.5, 90, null].map(dropBackBin)).toEqual([
    '0–5 s',
    '0–5 s',
    '0–5 s',
    '6–10 s',
    '6–10 s',
    '11–15 s',
    'over 15 s',
    'over 15 s',
    null,
  ]);
  expect([5, 6, 20, 30, 31].map(fightBin)).toEqual([
    'up to 5 min',
    '6–10 min',
    '11–20 min',
    '21–30 min',
    'over 30 min',
  ]);
});
