import { type IndexRequest, standardisedIndex } from '../../src/estimate/standardised-index.ts';
import { Random } from '../../src/stats/random.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { CoverCount } from './coverage-count.ts';
import { logOfTrips } from './line-season.ts';
import { drawTrips } from './line-trips.ts';
import type { World } from './line-world.ts';

const REQUEST: IndexRequest = {
  ...WHOLE_LOG,
  by: 'month',
  measure: 'bites_per_line_hour',
  adjust: ['reach', 'bait', 'wind_band'],
  level: 0.95,
  seed: 1,
};

/** The index of bites by month, each of the four months a case; months have as many trips. */
export function coverIndex(world: World, { runs, seed }: { runs: number; seed: number }) {
  const random = new Random(seed);
  const count = new CoverCount();
  const effects = world.months.map(({ bites }) => Math.exp(bites));
  const mean = effects.reduce((sum, effect) => sum + effect, 0) / effects.length;
  for (let run = 0; run < runs; run++) {
    const trips = drawTrips({ ...world, monthsDrawn: false }, random);
    const { rows } = standardisedIndex(tidySeason(logOfTrips(trips)), REQUEST);
    for (const { level, standardised } of rows) {
      const month = Number(level.slice(-2)) - 1;
      count.add('index', standardised, (effects[month] ?? 0) / mean);
    }
  }
  return count.covers;
}
