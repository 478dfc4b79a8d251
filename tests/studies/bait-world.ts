import type { BaitBuyRow, SoakRow, TripRow } from '../../src/read/rows.ts';
import type { Costs } from '../../src/settings/settings.ts';
import { Random } from '../../src/stats/random.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';

/** A boat whose need of bait is known, and which can only use what it has aboard. */
export interface BaitWorld {
  /** Trips logged before the loads are chosen, and trips that are then stocked. */
  readonly logged: number;
  readonly ahead: number;
  /** Need of one bait on a trip: negative binomial, deaths in the well included. */
  readonly baits: readonly {
    readonly bait: string;
    readonly mean: number;
    readonly size: number;
  }[];
  /** The crew's habit while the log was written: so many times the mean, give or take 20 %. */
  readonly habit: number;
}

/** A season's log, and what the trips after it would have needed, by bait. */
export interface StockedSeason {
  readonly needs: ReadonlyMap<string, readonly number[]>;
  /** Use as the log has it: no more than was aboard. */
  readonly uses: ReadonlyMap<string, readonly number[]>;
  tidied(costs: Pick<Costs, 'bait_short' | 'bait_left'>): TidySeason;
}

const FIRST_DAY = Date.UTC(2025, 0, 1);

/** Draws the log of one season: a trip that needed more than it had ran out, and says so. */
export function baitSeason(world: BaitWorld, seed: number): StockedSeason {
  const random = new Random(seed);
  const trips: (Pick<TripRow, 'trip_id' | 'date'> & Partial<TripRow>)[] = [];
  const soaks: (Pick<SoakRow, 'trip_id' | 'position'> & Partial<SoakRow>)[] = [];
  const baitBuys: BaitBuyRow[] = [];
  const uses = new Map(world.baits.map(({ bait }) => [bait, [] as number[]]));
  for (let trip = 0; trip < world.logged; trip++) {
    const date = new Date(FIRST_DAY + trip * 86_400_000).toISOString().slice(0, 10);
    const trip_id = `T${trip + 1}`;
    trips.push({ trip_id, date });
    soaks.push({ trip_id, position: 'pitch', baits_used: 0, bait: world.baits[0]?.bait ?? null });
    for (const { bait, mean, size } of world.baits) {
      const count = Math.round(mean * world.habit * Math.exp(0.2 * random.normal()));
      const need = random.negativeBinomial(mean, size);
      const used = Math.min(need, count);
      const died = random.binomial(used, 0.1);
      uses.get(bait)?.push(used);
      if (used > died)
        soaks.push({ trip_id, position: 'port-long', bait, baits_used: used - died });
      baitBuys.push({ ...NO_BUY, date, trip_id, bait, count, died, ran_out: need > count });
    }
  }
  const needs = new Map(
    world.baits.map(({ bait, mean, size }) => [
      bait,
      Array.from({ length: world.ahead }, () => random.negativeBinomial(mean, size)),
    ]),
  );
  return {
    needs,
    uses,
    tidied: (costs) =>
      tidySeason(
        makeLog({
          settings: { costs: { spool: {}, lost_fish: null, ...costs } },
          trips,
          soaks,
          baitBuys,
        }),
      ),
  };
}

const NO_BUY = { line: 2, unit_cost: null, source: null, notes: null };
