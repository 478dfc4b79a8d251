import type { BiteRow, SpoolRow, TripRow } from '../../src/read/rows.ts';
import { Random } from '../../src/stats/random.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';

/** A season whose wear is known, told by nothing but its log. */
export interface WearWorld {
  readonly trips: number;
  readonly rods: number;
  /** Fights a rod has on an average trip; a wild day has several times as many on every rod. */
  readonly fightsPerTrip: number;
  readonly beta: number;
  readonly theta: number;
  /** How far spools, and trips, differ in wear: gamma shape of a multiplier; Infinity: not at all. */
  readonly spoolShape: number;
  readonly tripShape: number;
}

/** Reels are filled every 9 to 17 trips, some much later. */
const LIFE = { least: 9, most: 17, lateShare: 0.15, lateTimes: 1.7 };
const WILD_DAY_SHAPE = 1.3;
const FIRST_DAY = Date.UTC(2025, 0, 1);

/** Draws the log of one season and tidies it as any other log. */
export function wearSeason(world: WearWorld, seed: number): TidySeason {
  const random = new Random(seed);
  const trips: (Pick<TripRow, 'trip_id' | 'date'> & Partial<TripRow>)[] = [];
  const spools: (Pick<SpoolRow, 'rod' | 'date' | 'line_type'> & Partial<SpoolRow>)[] = [];
  const bites: (Pick<BiteRow, 'trip_id' | 'outcome'> & Partial<BiteRow>)[] = [];
  const reels = Array.from({ length: world.rods }, (_, at) => ({
    rod: `K${at + 1}`,
    left: 0,
    fights: 0,
    wear: 1,
  }));
  for (let trip = 0; trip < world.trips; trip++) {
    const date = new Date(FIRST_DAY + trip * 86_400_000).toISOString().slice(0, 10);
    const trip_id = `T${trip + 1}`;
    trips.push({ trip_id, date });
    const wild = random.gamma(WILD_DAY_SHAPE) / WILD_DAY_SHAPE;
    const rough = multiplier(random, world.tripShape);
    for (const reel of reels) {
      if (reel.left === 0) {
        spools.push({ rod: reel.rod, date, line_type: 'mono' });
        reel.left = lifeOf(random);
        reel.fights = 0;
        reel.wear = multiplier(random, world.spoolShape);
      }
      reel.left--;
      const fights = random.poisson(world.fightsPerTrip * wild);
      for (let i = 0; i < fights; i++) {
        reel.fights++;
        const age = reel.fights;
        const step = (age / world.theta) ** world.beta - ((age - 1) / world.theta) ** world.beta;
        const broke = random.uniform() < Math.min(1, step * reel.wear * rough);
        bites.push({
          trip_id,
          rod: reel.rod,
          ...(broke ? { outcome: 'lost', lost_to: 'line_broke' } : { outcome: 'released' }),
        });
      }
    }
  }
  return tidySeason(makeLog({ trips, spools, bites }));
}

function multiplier(random: Random, shape: number): number {
  return Number.isFinite(shape) ? random.gamma(shape) / shape : 1;
}

function lifeOf(random: Random): number {
  const life = LIFE.least + random.integer(LIFE.most - LIFE.least + 1);
  return random.uniform() < LIFE.lateShare ? Math.round(life * LIFE.lateTimes) : life;
}
