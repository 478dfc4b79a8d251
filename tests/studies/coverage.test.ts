import { describe, expect, test } from 'vitest';
import { DEFAULT_COVARIATES } from '../../src/estimate/comparison.ts';
import { talliedGroups } from '../../src/estimate/rates.ts';
import { Random } from '../../src/stats/random.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { type Cover, shareCovered } from './coverage-count.ts';
import { coverIndex } from './coverage-index.ts';
import { coverDifferences, coverRatios } from './coverage-lenses.ts';
import { WANTED } from './coverage-lines.ts';
import { coverPlain } from './coverage-plain.ts';
import { SETTINGS } from './coverage-worlds.ts';
import { logOfTrips } from './line-season.ts';
import { talliesOfTrips } from './line-tallies.ts';
import { drawTrips } from './line-trips.ts';
import { isBraid, isMono, longRun } from './line-truth.ts';

// The study in small. Its full table is coverage.md, made by `npm run coverage-study`.

const named = (name: string) => {
  const world = SETTINGS.find((setting) => setting.name === name)?.world;
  return world ?? expect.fail(`No setting "${name}".`);
};

describe('the invented world', () => {
  test.each(SETTINGS)('$name: its long run is what many trips come to', ({ world }) => {
    const trips = drawTrips({ ...world, trips: 6000 }, new Random(11));
    for (const isMeant of [isBraid, isMono]) {
      const lines = trips.flatMap(({ lines: all, hours }) =>
        all.filter(({ rig }) => isMeant(rig)).map((line) => ({ ...line, hours })),
      );
      const sum = (of: (line: (typeof lines)[number]) => number) =>
        lines.reduce((total, line) => total + of(line), 0);
      const bites = sum((line) => line.bites);
      const { hookupRate, bitesPerLineHour } = longRun(world, isMeant);
      // Days with a log-normal multiplier of spread 1 leave the mean of 6,000 about 2 % open.
      expect(Math.abs(sum((line) => line.hooked) / bites - hookupRate)).toBeLessThan(0.015);
      expect(Math.abs(bites / sum((line) => line.hours) / bitesPerLineHour - 1)).toBeLessThan(0.06);
    }
  });

  test.each(SETTINGS)('$name: tallies drawn directly are those of the log', ({ world }) => {
    const trips = drawTrips(world, new Random(5));
    const season = tidySeason(logOfTrips(trips));
    const by = ['line_type', ...DEFAULT_COVARIATES] as const;
    const ofLog = talliedGroups(season, { ...WHOLE_LOG, by }).flatMap(({ rows }) => rows);
    const key = (row: TallyRow) => [row.trip_id, ...by.map((name) => row[name])].join();
    const inOrder = (rows: readonly TallyRow[]) =>
      [...rows].sort((a, b) => (key(a) < key(b) ? -1 : 1));
    expect(inOrder(talliesOfTrips(trips))).toEqual(inOrder(ofLog));
  });
});

/** Within what is wanted, give or take three standard errors of so many seasons. */
function expectHeld(cover: Cover | undefined, seasons = cover?.intervals ?? 0): void {
  const share = cover === undefined ? 0 : 100 * shareCovered(cover);
  const errorAt = (percent: number) => Math.sqrt((percent * (100 - percent)) / seasons);
  expect(share).toBeGreaterThan(WANTED.least - 3 * errorAt(WANTED.least));
  expect(share).toBeLessThan(WANTED.most + 3 * errorAt(WANTED.most));
}

describe('95 % intervals hold the truth in 93 to 97.5 % of over-dispersed seasons', () => {
  test.each([
    ['days differ much', 3],
    ['days differ much', 12],
    ['92 % are hooked', 12],
    ['bites come three at a time', 12],
  ])('share and rate of 30 trips: %s, %i bites a trip', (name, bitesPerTrip) => {
    const world = { ...named(name), bitesPerTrip, trips: 30 };
    const covers = coverPlain(world, { runs: 400, seed: 101 });
    expect([...covers.keys()]).toHaveLength(4);
    for (const cover of covers.values()) expectHeld(cover);
  });

  test('the three lenses: the line matters more on some days', () => {
    const world = { ...named('the line matters more on some days'), trips: 30 };
    const differences = coverDifferences(world, { runs: 120, seed: 102 });
    const ratios = coverRatios(world, { runs: 60, seed: 103 });
    for (const covers of [differences, ratios]) {
      for (const lens of ['as logged', 'same day', 'adjusted']) expectHeld(covers.get(lens));
    }
  });

  test('the index by month: days differ much', () => {
    const world = { ...named('days differ much'), trips: 32 };
    // The four months of a season are not independent, so only seasons count.
    expectHeld(coverIndex(world, { runs: 40, seed: 104 }).get('index'), 40);
  });
});
