import { adjustedRows } from '../../src/estimate/adjusted-rows.ts';
import { DEFAULT_COVARIATES } from '../../src/estimate/comparison.ts';
import type { Lens, LensName } from '../../src/estimate/lens.ts';
import { lensAdjusted } from '../../src/estimate/lens-adjusted.ts';
import { lensAsLogged } from '../../src/estimate/lens-as-logged.ts';
import { lensSameDay } from '../../src/estimate/lens-same-day.ts';
import { type Contrast, tripPairs } from '../../src/estimate/level-pairs.ts';
import { borrowedCorrelation } from '../../src/estimate/proportion.ts';
import { Random } from '../../src/stats/random.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';
import { CoverCount } from './coverage-count.ts';
import { talliesOfTrips, tripTallies } from './line-tallies.ts';
import { drawTrips } from './line-trips.ts';
import { isBraid, isMono, longRun, onMixOf, sameDayInTheLongRun } from './line-truth.ts';
import { LINES, type World } from './line-world.ts';

export const HOOKUPS = { factor: 'line_type', levels: LINES, measure: 'hookup_rate' } as const;
export const BITES = { ...HOOKUPS, measure: 'bites_per_line_hour' } as const;

interface Runs {
  readonly runs: number;
  readonly seed: number;
}

/** The three lenses on tallies that were drawn without the detour over rows of a log. */
export function lensesOn(rows: readonly TallyRow[], contrast: Contrast): Record<LensName, Lens> {
  const isShare = contrast.measure === 'hookup_rate';
  const correlation = isShare ? borrowedCorrelation('hookup_rate', tripTallies(rows)) : null;
  const options = { level: 0.95, correlation, adjust: DEFAULT_COVARIATES };
  const pairs = tripPairs(rows, contrast);
  return {
    as_logged: lensAsLogged(pairs, contrast.measure, options),
    same_day: lensSameDay(pairs, contrast.measure, options),
    adjusted: lensAdjusted(rows, contrast, options),
  };
}

/** The difference in hookups between braid and mono through each lens, each against its own truth. */
export function coverDifferences(world: World, { runs, seed }: Runs) {
  const random = new Random(seed);
  const count = new CoverCount();
  const asLogged = longRun(world, isBraid).hookupRate - longRun(world, isMono).hookupRate;
  const sameDay = sameDayInTheLongRun(world, seed + 1);
  for (let run = 0; run < runs; run++) {
    const rows = talliesOfTrips(drawTrips(world, random));
    const lenses = lensesOn(rows, HOOKUPS);
    // What was set aside is no part of the mix that the adjusted lens speaks of.
    const { rows: kept } = adjustedRows(rows, HOOKUPS, DEFAULT_COVARIATES);
    count.add('as logged', lenses.as_logged.difference, asLogged);
    count.add('same day', lenses.same_day.difference, sameDay);
    count.add('adjusted', lenses.adjusted.difference, onMixOf(world, kept));
  }
  return count.covers;
}

/** The ratio of bites per line-hour on braid to those on mono through each lens. */
export function coverRatios(world: World, { runs, seed }: Runs) {
  const random = new Random(seed);
  const count = new CoverCount();
  const asLogged =
    longRun(world, isBraid).bitesPerLineHour / longRun(world, isMono).bitesPerLineHour;
  const ofTheLine = Math.exp(world.line.bites);
  for (let run = 0; run < runs; run++) {
    const lenses = lensesOn(talliesOfTrips(drawTrips(world, random)), BITES);
    count.add('as logged', lenses.as_logged.ratio, asLogged);
    count.add('same day', lenses.same_day.ratio, ofTheLine);
    count.add('adjusted', lenses.adjusted.ratio, ofTheLine);
  }
  return count.covers;
}
