import { describe, expect, test } from 'vitest';
import { respoolAdvice } from '../../src/decide/respool-advice.ts';
import { baitPrice } from '../../src/estimate/bait-price.ts';
import { baitTrips } from '../../src/estimate/bait-trips.ts';
import { readSeason } from '../../src/read/read-season.ts';
import { fitTripUse } from '../../src/stats/censored-count-fit.ts';
import { LINE_AGE_BANDS } from '../../src/tally/line-age-band.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';

// Whole seasons from their CSV files against R, which reads the same files and shares no code:
// tests/reference/25-wear-and-stock-season.R (base R and package survival).

interface LineReference {
  readonly [name: string]: Json;
}

interface SeasonReference {
  readonly mono: LineReference;
  readonly braid: LineReference;
  readonly firstBreak: LineReference;
  readonly logRank: LineReference;
  readonly baits: Json[];
}

const ALL = { only: {}, from: null, to: null, level: 0.95, seed: 1 };
const SAMPLES = `${import.meta.dirname}/../../data-samples`;

const read = new Map<string, Promise<TidySeason>>();

/** A sample season, read once. */
function sample(name: string): Promise<TidySeason> {
  const season = read.get(name) ?? readSeason(`${SAMPLES}/${name}`, {}).then(tidySeason);
  read.set(name, season);
  return season;
}

describe.each(loadReference<{ season: string }, SeasonReference>('25-wear-and-stock-season'))(
  'the season of $id (R)',
  async ({ inputs, expected, tolerance }) => {
    const season = tidySeason(await readSeason(`${SAMPLES}/${inputs.season}`, {}));
    const { wear, lines } = respoolAdvice(season, ALL);

    test.each(['mono', 'braid'] as const)('wear of %s', (lineType) => {
      const { line, atPrices } = found(lines, lineType);
      const { law } = line;
      if (law.kind === 'not-estimable' || law.beta.kind === 'not-estimable')
        throw new Error('no fit');
      const { respoolAge, ...rest } = expected[lineType];
      const got = {
        fights: line.fights,
        breaks: line.breaks,
        pulled: line.pulled,
        beta: law.shape,
        betaLower: law.beta.lower,
        betaUpper: law.beta.upper,
        theta: law.theta,
        bandFights: byBand(line.bands, 'fights'),
        bandBreaks: byBand(line.bands, 'breaks'),
        oddsPer10Fights:
          line.trends.breaks.kind === 'estimated' ? line.trends.breaks.estimate : null,
      };
      expectClose(got, rest, tolerance);
      const asSet = atPrices.find(({ lostFish }) => lostFish === 90)?.age;
      if (asSet?.kind === 'estimated') expectClose(asSet.estimate, respoolAge ?? null, tolerance);
    });

    test('first breaks of mono, and whether line types differ', () => {
      const byFights = wear.firstBreaks.find(({ unit }) => unit === 'fights');
      const curve = byFights?.curves.find(({ lineType }) => lineType === 'mono')?.curve;
      const column = (name: 'time' | 'survival' | 'lower' | 'upper') =>
        (curve?.steps ?? []).map((step) => step[name]);
      const got = {
        time: column('time'),
        survival: column('survival'),
        lower: column('lower'),
        upper: column('upper'),
      };
      expectClose(got, expected.firstBreak, tolerance);
      if (byFights?.difference.kind !== 'tested') throw new Error('not tested');
      const { statistic, df } = byFights.difference;
      expectClose({ chiSquare: statistic, df }, expected.logRank, tolerance);
    });

    test('use of bait on every trip, dead ones and empty wells included', () => {
      const got = baitTrips(season, ALL).map((use) => {
        const fit = fitTripUse(use.trips);
        if (fit.kind === 'not-estimable') throw new Error(fit.reason);
        const sum = (name: 'deployed' | 'died') =>
          use.trips.reduce((total, trip) => total + trip[name], 0);
        return {
          bait: use.bait,
          trips: use.trips.length,
          deployed: sum('deployed'),
          died: sum('died'),
          ranOut: use.trips.filter((trip) => trip.ranOut).length,
          mean: fit.mean,
          size: fit.size,
          price: baitPrice(use)?.mean ?? null,
        };
      });
      expectClose(got, expected.baits, tolerance);
    });
  },
);

function found(lines: ReturnType<typeof respoolAdvice>['lines'], lineType: string) {
  const advice = lines.find(({ line }) => line.lineType === lineType);
  if (advice === undefined) throw new Error(`no ${lineType}`);
  return advice;
}

function byBand(
  bands: ReturnType<typeof found>['line']['bands'],
  count: 'fights' | 'breaks',
): number[] {
  return LINE_AGE_BANDS.map((name) => bands.find(({ band }) => band === name)?.[count] ?? 0);
}

test('mono-like wear gives an age near the 10 to 15 trips of common practice (no source)', async () => {
  const { lines } = respoolAdvice(await sample('port-vellamy'), ALL);
  const { advice, line } = found(lines, 'mono');
  if (advice.kind !== 'advised') throw new Error(advice.reason);
  const trips = advice.ageFights / (line.fightsPerTrip ?? Number.NaN);
  expect(trips).toBeGreaterThan(8);
  expect(trips).toBeLessThan(17);
});
