import { loadList } from '../../src/decide/load-list.ts';
import { type BaitWorld, baitSeason, type StockedSeason } from './bait-world.ts';

/** Ways to choose a load: the tool's list, and three habits of a dock. */
export const WAYS = ['list', 'mean', 'maximum', 'last'] as const;
export type Way = (typeof WAYS)[number];

/** What a bait too few and one left over cost. */
export interface StudyCosts {
  readonly short: number;
  readonly left: number;
}

/** What stocking cost a trip, on average over many seasons, and how sure that is. */
export interface LoadStudy {
  readonly runs: number;
  readonly cost: Readonly<Record<Way, number>>;
  /** Cost a trip of the way less that of the list, over its standard error between seasons. */
  readonly dearer: Readonly<Record<Way, { readonly mean: number; readonly error: number }>>;
}

/** Stocks the trips after `runs` simulated seasons in every way, each season from its own seed. */
export function loadStudy(
  world: BaitWorld,
  { short, left }: StudyCosts,
  { runs, firstSeed }: { readonly runs: number; readonly firstSeed: number },
): LoadStudy {
  const costs = Array.from({ length: runs }, (_, run) => {
    const season = baitSeason(world, firstSeed + run);
    const list = loadList(season.tidied({ bait_short: short, bait_left: left }), REQUEST);
    const listed = new Map(list.lines.map(({ bait, load }) => [bait, load?.load ?? 0]));
    return each((way) => costOf(season, loadBy(way, season, listed), { short, left }));
  });
  return {
    runs,
    cost: each((way) => mean(costs.map((cost) => cost[way]))),
    dearer: each((way) => {
      const gaps = costs.map((cost) => cost[way] - cost.list);
      return { mean: mean(gaps), error: standardError(gaps) };
    }),
  };
}

const REQUEST = {
  only: {},
  from: null,
  to: null,
  nextTrips: 1,
  month: null,
  tank: null,
  budget: null,
  held: {},
};

type Loads = ReadonlyMap<string, number>;

function loadBy(way: Way, { uses }: StockedSeason, listed: Loads): Loads {
  const by = (of: (used: readonly number[]) => number) =>
    new Map([...uses].map(([bait, used]) => [bait, of(used)]));
  if (way === 'mean') return by((used) => Math.round(mean(used)));
  if (way === 'maximum') return by((used) => Math.max(...used));
  if (way === 'last') return by((used) => used.at(-1) ?? 0);
  return listed;
}

/** Cost a trip over the trips ahead, all baits together. */
function costOf({ needs }: StockedSeason, loads: Loads, { short, left }: StudyCosts): number {
  let cost = 0;
  let trips = 0;
  for (const [bait, ofBait] of needs) {
    const load = loads.get(bait) ?? 0;
    trips = ofBait.length;
    for (const need of ofBait) cost += need > load ? short * (need - load) : left * (load - need);
  }
  return cost / trips;
}

function each<Value>(of: (way: Way) => Value): Readonly<Record<Way, Value>> {
  return Object.fromEntries(WAYS.map((way) => [way, of(way)])) as Record<Way, Value>;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function standardError(values: readonly number[]): number {
  const centre = mean(values);
  const squares = values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1) / values.length);
}
