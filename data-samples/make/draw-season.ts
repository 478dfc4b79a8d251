import { Random } from '../../src/stats/random.ts';
import { withBlemishes } from './blemishes.ts';
import { fishTrip } from './fish-trip.ts';
import { writtenRows } from './log-rows.ts';
import { planTrips } from './plan-trips.ts';
import { Reels } from './reels.ts';
import { HOME_RODS } from './rig.ts';
import { seasonYaml } from './season-yaml.ts';
import { truthJson } from './truth-json.ts';
import type { World } from './world.ts';
import { csvText } from './write-csv.ts';

/** A whole season as files: name → text. The same world gives the same bytes. */
export function drawSeason(world: World): Record<string, string> {
  const random = new Random(world.seed);
  const reels = new Reels(world, random, Object.values(HOME_RODS));
  const fished = planTrips(world, random).map((trip) => fishTrip(world, random, { trip, reels }));
  const rows = withBlemishes(writtenRows(world, random, { fished, fillings: reels.fillings }));
  return {
    'trips.csv': csvText('trips.csv', rows.trips),
    'soaks.csv': csvText('soaks.csv', rows.soaks),
    'bites.csv': csvText('bites.csv', rows.bites),
    'spools.csv': csvText('spools.csv', rows.spools),
    'bait-buys.csv': csvText('bait-buys.csv', rows.baitBuys),
    'season.yaml': seasonYaml(world),
    'truth.json': truthJson(world, fished),
  };
}
