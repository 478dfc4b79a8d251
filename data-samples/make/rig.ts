import { DEFAULT_POSITIONS, type Position } from '../../src/settings/settings.ts';
import type { Random } from '../../src/stats/random.ts';
import { chance, weighted } from './draws.ts';
import type { PlannedTrip } from './plan-trips.ts';
import type { World } from './world.ts';

/** One line of the spread as it is rigged for a whole trip. */
export interface RiggedLine {
  readonly position: Position;
  readonly rod: string;
  readonly leader_lb: number;
  readonly hook_model: string;
}

/** The rod that belongs to each position. */
export const HOME_RODS: Readonly<Record<string, string>> = {
  'port-short': 'K1',
  'port-middle': 'K2',
  'port-long': 'K3',
  'starboard-short': 'K4',
  'starboard-middle': 'K5',
  'starboard-long': 'K6',
  'flat-port': 'F1',
  'flat-starboard': 'F2',
  pitch: 'P1',
};

/** Chance that the two rods of a reach change sides for a trip. */
const RODS_CHANGE_SIDES = 0.15;

/** The lines a trip fishes: some of the kite positions, one or two flat lines, the pitch rod. */
export function rigLines(world: World, random: Random, trip: PlannedTrip): RiggedLine[] {
  const kites = DEFAULT_POSITIONS.filter(({ reach }) => reach !== 'flat' && reach !== 'pitch');
  const flats = DEFAULT_POSITIONS.filter(({ reach }) => reach === 'flat');
  const pitch = DEFAULT_POSITIONS.filter(({ reach }) => reach === 'pitch');
  const positions = [
    ...some(random, kites, trip.kiteLines),
    ...some(random, flats, trip.flatLines),
    ...pitch,
  ];
  const swapped = new Set(
    ['short', 'middle', 'long', 'flat'].filter(() => chance(random, RODS_CHANGE_SIDES)),
  );
  const firstLeaderSide = chance(random, 0.5) ? 'port' : 'starboard';
  return positions.map((position) => ({
    position,
    rod: rodAt(position, swapped.has(position.reach)),
    leader_lb: leaderOn(world, random, position.side === firstLeaderSide),
    hook_model: weighted(random, world.hook_models) as string,
  }));
}

/** A random choice of this many, in the list's own order. */
function some<T>(random: Random, list: readonly T[], count: number): T[] {
  const chosen = new Set(random.permutation(list.length).slice(0, count));
  return list.filter((_, index) => chosen.has(index));
}

function rodAt(position: Position, swapped: boolean): string {
  const home = DEFAULT_POSITIONS.find(
    ({ side, reach }) =>
      reach === position.reach &&
      (position.side === 'centre' || (side === position.side) !== swapped),
  );
  return HOME_RODS[(home ?? position).name] as string;
}

function leaderOn(world: World, random: Random, first: boolean): number {
  const { pair_lb, heavy_lb, heavy_share } = world.leaders;
  if (chance(random, heavy_share)) return heavy_lb;
  return first ? pair_lb[0] : pair_lb[1];
}
