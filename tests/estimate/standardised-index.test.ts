import { describe, expect, test } from 'vitest';
import { type IndexRequest, standardisedIndex } from '../../src/estimate/standardised-index.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type SoakColumns, seasonOfColumns } from './season-of-columns.ts';

const REQUEST: IndexRequest = {
  ...WHOLE_LOG,
  by: 'month',
  measure: 'bites_per_line_hour',
  adjust: ['month', 'reach', 'bait', 'wind_band'],
  level: 0.95,
  seed: 1,
};

describe('from the rows of a log to the index by month, against R (22-adjusted-and-index.R)', () => {
  const cases = loadReference<{ formula: string; data: SoakColumns }, Record<string, Json>>(
    '22-adjusted-and-index',
    'index',
  ).filter(({ inputs }) => !inputs.formula.includes('*'));

  test.each(cases)('$id: $description', ({ inputs: { data }, expected, tolerance }) => {
    const index = standardisedIndex(seasonOfColumns(data), REQUEST);
    const wanted = expected.index as {
      level: string;
      index: number;
      interval: { lower: number; upper: number } | null;
    }[];
    expect(index.refused).toBeNull();
    expectClose(
      index.rows.map(({ level, standardised }) => ({ ...standardised, level })),
      wanted.map(({ level, index: estimate, interval }) => ({
        level,
        estimate,
        lower: interval?.lower ?? '-Infinity',
        upper: interval?.upper ?? 'Infinity',
      })),
      tolerance,
    );
    for (const [at, { interval }] of wanted.entries())
      expect(index.rows[at]?.standardised.notes.length).toBe(interval === null ? 1 : 0);
    const model = index.model?.();
    const { theta, clusterSeTheta } = expected;
    expectClose(
      { theta: model?.theta, clusterSeTheta: model?.thetaStandardError },
      { theta, clusterSeTheta },
      tolerance,
    );
    expect(model?.unit).toBe('soak');
    expect(model?.residuals).toHaveLength(data.trip.length);
  });

  test.each(cases)('$id: the unstandardised series is plain division', ({ inputs: { data } }) => {
    const { rows } = standardisedIndex(seasonOfColumns(data), REQUEST);
    const sumOf = (month: string, values: readonly number[]) =>
      values.reduce((sum, value, at) => sum + (data.month?.[at] === month ? value : 0), 0);
    const rates = rows.map(
      ({ level }) => sumOf(level, data.bites) / sumOf(level, data.hours ?? []),
    );
    const mean = rates.reduce((sum, rate) => sum + rate, 0) / rates.length;
    for (const [at, row] of rows.entries()) {
      expect(row.rawPerLineHour).toBeCloseTo(rates[at] ?? 0, 12);
      expect(row.raw).toBeCloseTo((rates[at] ?? 0) / mean, 12);
      expect(row.lineHours).toBeCloseTo(sumOf(row.level, data.hours ?? []), 9);
    }
  });
});

describe('what cannot be indexed says why', () => {
  const columns: SoakColumns = {
    trip: [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6],
    month: [...'334455667788'].map((month) => `2031-0${month}`),
    reach: Array.from({ length: 12 }, (_, at) => (at % 2 === 0 ? 'long' : 'short')),
    bait: Array.from({ length: 12 }, () => 'scad'),
    hours: Array.from({ length: 12 }, () => 4),
    bites: [3, 1, 2, 2, 5, 0, 1, 4, 2, 3, 0, 0],
  };

  test('a month without a bite is left out of the model and named', () => {
    const { rows, notes } = standardisedIndex(seasonOfColumns(columns), REQUEST);
    const august = rows.find(({ level }) => level === '2031-08');
    expect(notes).toContain('Month 2031-08 was left out of the model: nothing came on it.');
    expect(august?.standardised.kind).toBe('not-estimable');
    expect(august?.rawPerLineHour).toBe(0);
  });

  test('levels that went all one way are named as a captain knows them', () => {
    // Mullet had bites in April alone, where scad was never out: bait and month run off together.
    const oneWay: SoakColumns = {
      trip: [1, 1, 2, 2, 3, 3, 4, 5, 6],
      month: ['03', '03', '03', '03', '03', '03', '04', '04', '04'].map((month) => `2031-${month}`),
      reach: Array.from({ length: 9 }, () => 'long'),
      bait: ['scad', 'blue_mullet', 'scad', 'blue_mullet', 'scad', ...Array(4).fill('blue_mullet')],
      bites: [3, 0, 2, 0, 5, 0, 1, 4, 2],
    };
    const { refused } = standardisedIndex(seasonOfColumns(oneWay), REQUEST);
    expect(refused).toBe(
      'Some combination of levels went all one way, so no figure can be found for bait scad and month 2031-04.',
    );
  });

  test('months of one trip each get no interval', () => {
    const { rows } = standardisedIndex(seasonOfColumns(columns), REQUEST);
    for (const { standardised } of rows)
      if (standardised.kind === 'estimated')
        expect([standardised.lower, standardised.upper]).toEqual([
          Number.NEGATIVE_INFINITY,
          Number.POSITIVE_INFINITY,
        ]);
  });

  test('one month alone, no bites at all, no hours at all', () => {
    const one = { ...columns, month: columns.trip.map(() => '2031-03') };
    const alone = standardisedIndex(seasonOfColumns(one), REQUEST);
    expect(alone.rows).toHaveLength(1);
    expect(alone.rows[0]?.standardised).toMatchObject({ estimate: 1 });
    const none = standardisedIndex(
      seasonOfColumns({ ...columns, bites: columns.bites.map(() => 0) }),
      REQUEST,
    );
    expect(none.refused).toMatch(/nothing to index/);
    const empty = standardisedIndex(tidySeason(makeLog({ trips: [] })), REQUEST);
    expect(empty.refused).toMatch(/No line-hours are recorded/);
    expect(empty.rows).toEqual([]);
  });
});
