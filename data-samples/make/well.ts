import type { Reach } from '../../src/settings/settings.ts';
import type { Random } from '../../src/stats/random.ts';
import { at } from './at.ts';
import { weighted } from './draws.ts';
import type { PlannedTrip } from './plan-trips.ts';
import type { World } from './world.ts';

/** One purchase of one bait, as it goes into bait-buys.csv once the day is over. */
export interface Purchase {
  readonly date: string;
  readonly trip_id: string;
  readonly bait: string;
  readonly count: number;
  readonly unit_cost: number;
  readonly died: number;
  readonly ran_out: boolean;
  readonly source: string;
}

interface Stock {
  readonly bait: string;
  readonly bought: number;
  readonly died: number;
  left: number;
  ranOut: boolean;
}

/** Deaths in a well come in batches: the share that dies varies like a beta with this total. */
const DEATHS_TOGETHER = 12;
/** Below this many wanted the crew does not bother with a bait. */
const FEWEST_BOUGHT = 4;
const CAUGHT_BY_OWN_HAND = 0.12;

/** The live well of one trip. */
export class Well {
  readonly #stocks: Stock[] = [];

  /** @param wanted how many of each bait the crew thinks it will use. */
  constructor(
    private readonly world: World,
    private readonly random: Random,
    private readonly day: {
      readonly trip: PlannedTrip;
      readonly wanted: Readonly<Record<string, number>>;
    },
  ) {
    const supply = day.trip.weekend ? world.costs.weekend_supply : 1;
    for (const [bait, { dies }] of Object.entries(world.baits)) {
      const count = Math.round((day.wanted[bait] ?? 0) * supply * Math.exp(0.2 * random.normal()));
      if (count < FEWEST_BOUGHT) continue;
      const share = random.beta(dies * DEATHS_TOGETHER, (1 - dies) * DEATHS_TOGETHER);
      const died = random.binomial(count, share);
      this.#stocks.push({ bait, bought: count, died, left: count - died, ranOut: false });
    }
  }

  /** Takes one bait for this reach: the one wanted, else what is left; null from an empty well. */
  take(reach: Reach): string | null {
    const wished = this.#draw(reach, this.#stocks);
    if (wished !== undefined && wished.left === 0) wished.ranOut = true;
    const taken =
      wished !== undefined && wished.left > 0
        ? wished
        : this.#draw(
            reach,
            this.#stocks.filter(({ left }) => left > 0),
          );
    if (taken === undefined) return null;
    taken.left--;
    return taken.bait;
  }

  /** A second of the same where there is one: the first died or washed off before it fished. */
  takeAnother(bait: string): boolean {
    const stock = this.#stocks.find((held) => held.bait === bait);
    if (stock === undefined || stock.left === 0) return false;
    stock.left--;
    return true;
  }

  /** What the day's bait log says. */
  purchases(): Purchase[] {
    const { trip } = this.day;
    return this.#stocks.map(({ bait, bought, died, ranOut }) => {
      const { unit_cost, weight } = at(this.world.baits, bait);
      const own = weight !== 'heavy' && this.random.uniform() < CAUGHT_BY_OWN_HAND;
      const price = unit_cost * (trip.weekend ? this.world.costs.weekend_price : 1);
      return {
        date: trip.date,
        trip_id: trip.id,
        bait,
        count: bought,
        unit_cost: own ? 0 : price,
        died,
        ran_out: ranOut,
        source: own ? 'own catch' : 'bait pens',
      };
    });
  }

  #draw(reach: Reach, stocks: readonly Stock[]): Stock | undefined {
    const wishes = stocks.map(({ bait }) => [bait, this.world.baits[bait]?.wanted[reach] ?? 0]);
    const drawn = weighted(this.random, Object.fromEntries(wishes));
    return stocks.find(({ bait }) => bait === drawn);
  }
}
