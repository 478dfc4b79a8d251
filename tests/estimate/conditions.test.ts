import { describe, expect, test } from 'vitest';
import { conditionRates } from '../../src/estimate/condition-rates.ts';
import { flagged } from '../../src/estimate/condition-tests.ts';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { type LogParts, makeLog } from '../helpers/make-log.ts';

const PART = { only: {}, from: null, to: null, level: 0.95, seed: 1 };

/** Trips of four hours with five lines, each with so many bites and such cells. */
function season(
  trips: readonly (Partial<LogParts['trips'][number]> & { readonly bites: number })[],
  settings: LogParts['settings'] = {},
) {
  const named = trips.map((trip, at) => ({ ...trip, trip_id: `t${at}` }));
  return tidySeason(
    makeLog({
      settings,
      trips: named.map(({ bites: _, ...trip }, at) => ({
        date: `2026-03-${String(1 + at).padStart(2, '0')}`,
        hours_fished: 4,
        lines_fished: 5,
        ...trip,
      })),
      bites: named.flatMap(({ trip_id, bites }) =>
        Array.from({ length: bites }, () => ({ trip_id, outcome: 'missed' as const })),
      ),
    }),
  );
}

const of = (log: ReturnType<typeof season>, name: string) => {
  const found = conditionRates(log, PART).find(({ condition }) => condition.name === name);
  if (found === undefined) throw new Error(`There is no condition ${name}.`);
  return found;
};

describe('bites by condition, worked by hand', () => {
  const log = season([
    { bites: 2, current_kn: 0.4 },
    { bites: 4, current_kn: 0.5 },
    { bites: 6, current_kn: 0.9 },
    { bites: 0, current_kn: null },
  ]);

  test('a band holds its start and not its end; what is not recorded comes last', () => {
    // 4 h × 5 lines = 20 line-hours a trip: 2/20 below half a knot, (4 + 6)/40 from there.
    const levels = of(log, 'current').levels.map(({ name, trips, bites, lineHours, rate }) => ({
      name: name.replace('\u202f', ' '),
      trips,
      bites,
      lineHours,
      rate: rate.kind === 'estimated' ? rate.estimate : null,
    }));
    expect(levels).toEqual([
      { name: 'under 0.5 kn', trips: 1, bites: 2, lineHours: 20, rate: 0.1 },
      { name: '0.5–1 kn', trips: 2, bites: 10, lineHours: 40, rate: 0.25 },
      { name: 'not recorded', trips: 1, bites: 0, lineHours: 20, rate: 0 },
    ]);
  });

  test('too few trips are not tested, and nothing stands out', () => {
    const { test: tested, standsOut } = of(log, 'current');
    expect(tested.p).toBeNull();
    expect(tested.reason).toMatch(/^There are not two levels of 5 trips/);
    expect(standsOut).toBe(false);
  });
});

test('sea states begin where WMO code table 3700 has them, in the reader’s unit', () => {
  const waves = [0.4, 0.5, 1.2, 1.25, 2.5, 4.1].map((wave_m) => ({ bites: 1, wave_m }));
  const names = (log: ReturnType<typeof season>) =>
    of(log, 'wave').levels.map(({ name, trips }) => `${trips}: ${name.replace('\u202f', ' ')}`);
  expect(names(season(waves))).toEqual([
    '1: calm or smooth, under 0.5 m',
    '2: slight, 0.5–1.25 m',
    '1: moderate, 1.25–2.5 m',
    '1: rough, 2.5–4 m',
    '1: very rough, 4 m or more',
  ]);
  const feet = { ...DEFAULT_SETTINGS.units, depth: 'ft' as const };
  expect(names(season(waves, { units: feet }))[1]).toBe('2: slight, 2–4 ft');
});

test('temperatures are cut into eight bands at most, a degree wide where that is enough', () => {
  const log = (celsius: readonly number[]) =>
    season(celsius.map((water_temp_c) => ({ bites: 1, water_temp_c })));
  const bands = (celsius: readonly number[]) =>
    of(log(celsius), 'water_temp').levels.map(({ name }) => name.replace('\u202f', ' '));
  expect(bands([24.9, 25, 25.9])).toEqual(['24–25 °C', '25–26 °C']);
  expect(bands([20, 21.9, 22, 35.9])).toEqual(['20–22 °C', '22–24 °C', '34–36 °C']);
});

describe('whether a condition stands out', () => {
  const trips = (bites: (at: number) => number) =>
    Array.from({ length: 24 }, (_, at) => ({ bites: bites(at), area: at % 2 ? 'Edge' : 'Shelf' }));

  test('a ground with four times the bites on every trip does', () => {
    const found = of(season(trips((at) => (at % 2 ? 12 : 3) + (at % 3))), 'area');
    expect(found.test.p).toBeLessThan(0.001);
    expect(found.standsOut).toBe(true);
  });

  test('one with bites that came in one burst does not', () => {
    // 60 of the 72 bites of one ground on a single trip: a Poisson test would be sure of it.
    const found = of(season(trips((at) => (at === 1 ? 60 : at % 2 ? 1 : 3))), 'area');
    expect(found.test.p).toBeGreaterThan(0.05);
    expect(found.standsOut).toBe(false);
  });

  test('the correction counts the conditions that could be tested', () => {
    const made = (p: number | null) => ({
      levels: 2,
      trips: 20,
      p,
      pWithinMonth: null,
      reason: null,
    });
    // Benjamini–Hochberg by hand: 0.02 × 3 / 1 = 0.06, 0.03 × 3 / 2 = 0.045, so both stand.
    expect(flagged([0.02, 0.03, 0.9, null].map(made), 0.95)).toEqual([true, true, false, false]);
    expect(flagged([0.02, 0.5, 0.9, null].map(made), 0.95)).toEqual([false, false, false, false]);
    expect(flagged([], 0.95)).toEqual([]);
  });
});
