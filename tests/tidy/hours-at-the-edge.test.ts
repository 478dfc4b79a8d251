import { describe, expect, test } from 'vitest';
import { compareLevels } from '../../src/estimate/compare-levels.ts';
import { ratesBy } from '../../src/estimate/rates.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { type TallyRow, talliesOf } from '../../src/tally/tallies.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, makeLog } from '../helpers/make-log.ts';

// Cases that an independent R program, written from the same rules, counted otherwise; by hand.

const trip = {
  trip_id: 'T1',
  date: '2026-03-01',
  lines_in: clock('6:00'),
  lines_out: clock('16:00'),
};
const at = (position: string, from: string, to: string, cells = {}) => ({
  ...{ trip_id: 'T1', position, time_in: clock(from), time_out: clock(to) },
  ...cells,
});
const bite = (position: string, time: string, cells = {}) => ({
  ...{ trip_id: 'T1', outcome: 'lost' as const, position, time: clock(time) },
  ...cells,
});

describe('hours at the edge', () => {
  test('a soak fought to the last minute has none, not what rounding left', () => {
    const fights = [18, 13].map((fight_min, i) =>
      bite('pitch', i ? '7:20' : '7:00', { fight_min }),
    );
    const log = makeLog({ trips: [trip], soaks: [at('pitch', '7:00', '7:31')], bites: fights });
    expect(tidySeason(log).soaks?.[0]?.lineHours).toBe(0);
  });

  test('a soak begun in a skipped hour lasts what the clock says, not a day more', () => {
    // Lisbon, 30 March 2025: 01:00 is followed by 02:00 (IANA time zone database).
    const gap = { ...trip, date: '2025-03-30', lines_in: clock('0:30'), lines_out: clock('4:30') };
    const soaks = [at('pitch', '1:05', '2:00')];
    const log = makeLog({ settings: { time_zone: 'Europe/Lisbon' }, trips: [gap], soaks });
    expect(tidySeason(log).soaks?.[0]?.lineHours).toBeCloseTo(55 / 60, 12);
  });

  test('a bite at the end of a soak, on the full hour, is in no hour that soak fished', () => {
    const soaks = [at('port-long', '6:00', '8:00'), at('port-short', '8:00', '9:00')];
    const log = makeLog({ trips: [trip], soaks, bites: [bite('port-long', '8:00')] });
    const rows = talliesOf(tidySeason(log), { ...WHOLE_LOG, by: ['hour_of_day'] });
    const eight = (rows.objects() as TallyRow[]).find((row) => row.hour_of_day === '8');
    expect(eight).toMatchObject({ bites: 1, bites_on_effort: 0, line_hours: 1 });
  });

  test('a bite away from the standing spread has no line-hours on either side', () => {
    const positions = ['port-short', 'port-long', 'starboard-short'];
    const log = makeLog({
      settings: { standing_spread: positions },
      trips: [{ ...trip, lines_fished: 3 }],
      bites: [bite('port-middle', '7:00'), bite('starboard-middle', '7:00')],
    });
    const season = tidySeason(log);
    const rows = talliesOf(season, { ...WHOLE_LOG, by: ['side'] }).objects() as TallyRow[];
    expect(rows.map((row) => row.bites_on_effort)).toEqual([0, 0]);
    const [whole] = talliesOf(season, WHOLE_LOG).objects() as TallyRow[];
    expect(whole).toMatchObject({ bites: 2, bites_on_effort: 2, line_hours: 30 });
  });
});

test('as logged, a comparison has the very rates of the table', () => {
  const trips = ['T1', 'T2'].map((trip_id, day) => ({
    ...trip,
    trip_id,
    date: `2026-03-0${day + 1}`,
  }));
  const of = (trip_id: string) => [
    { ...at('port-long', '7:00', '9:00', { line_type: 'mono', bait: 'scad' }), trip_id },
    { ...at('port-short', '7:00', '9:00', { line_type: 'braid', bait: 'scad' }), trip_id },
  ];
  const bites = trips.flatMap(({ trip_id }) => [
    { ...bite('port-long', '7:30', { bait: 'mullet' }), trip_id },
    { ...bite('port-long', '8:30'), trip_id },
    { ...bite('port-short', '8:00'), trip_id },
  ]);
  const season = tidySeason(makeLog({ trips, soaks: trips.flatMap((t) => of(t.trip_id)), bites }));
  const measure = 'bites_per_line_hour' as const;
  const request = { only: {}, from: null, to: null, level: 0.95, seed: 1 };
  const rates = ratesBy(season, { ...request, by: ['line_type'], measures: [measure] });
  const { lenses } = compareLevels(
    season,
    { factor: 'line_type', levels: ['braid', 'mono'], measure },
    { ...request, adjust: ['bait'] },
  );
  expect(lenses.as_logged.a).toMatchObject({ estimate: 0.5 });
  expect(lenses.as_logged.b).toMatchObject({ estimate: 1 });
  expect(rates.map(({ rate }) => rate)).toMatchObject([{ estimate: 0.5 }, { estimate: 1 }]);
});
