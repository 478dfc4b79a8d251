import { describe, expect, test } from 'vitest';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { type TallyRow, talliesOf } from '../../src/tally/tallies.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, makeLog } from '../helpers/make-log.ts';

const day = { lines_in: clock('6:00'), lines_out: clock('16:00') };
const log = makeLog({
  trips: [
    { ...day, trip_id: 'T1', date: '2026-03-01', hours_fished: 8, lines_fished: 4 },
    { ...day, trip_id: 'T2', date: '2026-03-02', hours_fished: 8, lines_fished: 4 },
    { ...day, trip_id: 'T3', date: '2026-04-02' },
  ],
  soaks: [
    { trip_id: 'T1', position: 'port-long', bait: 'mullet', time_in: 420, time_out: 540 },
    { trip_id: 'T1', position: 'port-short', bait: 'scad', time_in: 420, time_out: 480 },
  ],
  bites: [
    { trip_id: 'T1', outcome: 'released', position: 'port-long', time: 430, species: 'sailfish' },
    { trip_id: 'T1', outcome: 'missed', position: 'port-long', time: 500, bait: 'scad' },
    {
      trip_id: 'T1',
      outcome: 'kept',
      position: 'port-short',
      time: 470,
      species: 'wahoo',
      count: 3,
    },
    { trip_id: 'T1', outcome: 'lost', position: 'pitch', time: 470 },
    { trip_id: 'T2', outcome: 'lost', position: 'port-long', time: 470, bait: 'mullet' },
    { trip_id: 'T3', outcome: 'lost', position: 'port-long', time: 470, bait: 'mullet' },
  ],
});
const season = tidySeason(log);
const rows = (question: Partial<typeof WHOLE_LOG>) =>
  talliesOf(season, { ...WHOLE_LOG, ...question }).objects() as TallyRow[];

describe('tallies of trip by group', () => {
  test('count outcomes, rows that stand for several included', () => {
    const [first] = rows({}).filter((row) => row.trip_id === 'T1');
    expect(first).toMatchObject({
      bites: 6,
      hooked: 5,
      caught: 4,
      released: 1,
      kept: 3,
      fights: 5,
    });
    expect(first).toMatchObject({ line_hours: 3, bites_on_effort: 5, assumed_rows: 0 });
  });

  test('a trip without soaks has hours × lines for the whole trip, and nothing below it', () => {
    const whole = rows({}).find((row) => row.trip_id === 'T2');
    expect(whole).toMatchObject({ line_hours: 40, bites_on_effort: 1, assumed_rows: 1 });
    const byBait = rows({ by: ['bait'] }).filter((row) => row.trip_id === 'T2');
    expect(byBait).toMatchObject([
      { bait: 'mullet', bites: 1, bites_on_effort: 0, effort_rows: 0 },
    ]);
  });

  test('a trip without lines fished has no effort at all', () => {
    expect(rows({}).find((row) => row.trip_id === 'T3')).toMatchObject({ effort_rows: 0 });
  });

  test('a bite whose bait is not its soak’s counts under its own, without line-hours', () => {
    const scad = rows({ by: ['bait'] }).find((r) => r.trip_id === 'T1' && r.bait === 'scad');
    expect(scad).toMatchObject({ bites: 4, bites_on_effort: 3, line_hours: 1 });
    const long = rows({ by: ['reach'] }).find((r) => r.trip_id === 'T1' && r.reach === 'long');
    expect(long).toMatchObject({ bites: 2, bites_on_effort: 2, line_hours: 2 });
  });

  test('a filter keeps bites and line-hours alike', () => {
    const [only] = rows({ only: { bait: ['scad'] }, from: '2026-03-01', to: '2026-03-01' });
    expect(only).toMatchObject({ bites: 4, bites_on_effort: 3, line_hours: 1 });
    expect(rows({ from: '2026-03-02' }).map((row) => row.trip_id)).toEqual(['T2', 'T3']);
  });

  test('hours of the clock add up to the soak, the fight taken from the hour it was in', () => {
    const fought = makeLog({
      trips: log.trips,
      soaks: [{ trip_id: 'T1', position: 'port-long', time_in: 450, time_out: 570 }],
      bites: [{ trip_id: 'T1', outcome: 'lost', position: 'port-long', time: 470, fight_min: 40 }],
    });
    const tallied = talliesOf(tidySeason(fought), { ...WHOLE_LOG, by: ['hour_of_day'] });
    const hours = (tallied.objects() as TallyRow[]).filter((row) => row.trip_id === 'T1');
    // 7:30-9:30 with a fish on from 7:50 to 8:30: 20 min left in hour 7, 30 in 8, 30 in 9.
    const byHour = Object.fromEntries(
      hours.map((r) => [r.hour_of_day, Math.round(r.line_hours * 60)]),
    );
    expect(byHour).toEqual({ '7': 20, '8': 30, '9': 30 });
  });

  test('every species has all the line-hours, and no missed bite', () => {
    const species = rows({ by: ['species'] }).filter((row) => row.trip_id === 'T1');
    const of = (name: string) => species.find((row) => row.species === name);
    expect(of('sailfish')).toMatchObject({ bites: 1, hooked: 1, line_hours: 3 });
    expect(of('wahoo')).toMatchObject({ bites: 3, caught_on_effort: 3, line_hours: 3 });
    const [onlyOne] = rows({ only: { species: ['sailfish', 'wahoo'] } });
    expect(onlyOne).toMatchObject({ hooked: 4, line_hours: 3 });
  });
});

describe('laws of tallies', () => {
  test('groups of every factor add up to the whole', () => {
    const total = (list: TallyRow[], name: 'bites' | 'hooked' | 'kept') =>
      list.reduce((sum, row) => sum + row[name], 0);
    const factors = ['bait', 'position', 'reach', 'month', 'moon', 'hour_of_day', 'line_age_band'];
    for (const by of factors) {
      const parts = rows({ by: [by] as never });
      for (const count of ['bites', 'hooked', 'kept'] as const) {
        expect(total(parts, count), `${count} by ${by}`).toBe(total(rows({}), count));
      }
    }
  });
});
