import { ratioTrip } from '../../src/stats/clustered-ratio-trip.ts';
import { wilsonTrip, withinTripCorrelation } from '../../src/stats/clustered-wilson-trip.ts';
import { Random } from '../../src/stats/random.ts';
import { CoverCount } from './coverage-count.ts';
import { type DrawnTrip, drawTrips } from './line-trips.ts';
import { isBraid, longRun } from './line-truth.ts';
import type { Rig, World } from './line-world.ts';

const level = 0.95;

/**
 * `share` and `rate`: hookups over bites by `wilsonTrip` and bites per line-hour by `ratioTrip`, of
 * the whole log; `share of braid` and `rate of braid`: of the lines rigged with it, about half.
 */
export function coverPlain(world: World, { runs, seed }: { runs: number; seed: number }) {
  const random = new Random(seed);
  const count = new CoverCount();
  const groups = [
    { suffix: '', isMeant: () => true },
    { suffix: ' of braid', isMeant: isBraid },
  ].map((group) => ({ ...group, truth: longRun(world, group.isMeant) }));
  for (let run = 0; run < runs; run++) {
    const trips = drawTrips(world, random);
    const borrowedCorrelation = withinTripCorrelation(sharesOf(trips, () => true));
    for (const { suffix, isMeant, truth } of groups) {
      const share = wilsonTrip(sharesOf(trips, isMeant), { level, borrowedCorrelation });
      const rate = ratioTrip(ratesOf(trips, isMeant), { level });
      count.add(`share${suffix}`, share, truth.hookupRate);
      count.add(`rate${suffix}`, rate, truth.bitesPerLineHour);
    }
  }
  return count.covers;
}

type Meant = (rig: Rig) => boolean;

function sharesOf(trips: readonly DrawnTrip[], isMeant: Meant) {
  return trips.map(({ lines }) => {
    const meant = lines.filter(({ rig }) => isMeant(rig));
    return {
      successes: meant.reduce((sum, line) => sum + line.hooked, 0),
      units: meant.reduce((sum, line) => sum + line.bites, 0),
    };
  });
}

function ratesOf(trips: readonly DrawnTrip[], isMeant: Meant) {
  return trips.map(({ lines, hours }) => {
    const meant = lines.filter(({ rig }) => isMeant(rig));
    return {
      events: meant.reduce((sum, line) => sum + line.bites, 0),
      exposure: meant.length * hours,
    };
  });
}
