import { type Refusal, refuse } from '../base/estimate.ts';
import { countQuantile } from './count-distribution.ts';
import { type BaitDemand, fits, type LoadLimits, needsOf } from './load-allocation-basket.ts';
import { exactLoads } from './load-allocation-exact.ts';
import { greedyLoads } from './load-allocation-greedy.ts';
import { criticalRatio, loadOutcome } from './newsvendor.ts';

/** What to load of each bait when all share one tank and one purse. */
export interface Allocation {
  readonly kind: 'allocated';
  /** One whole number a bait, in the order given. */
  readonly loads: readonly number[];
  readonly expectedCost: number;
  readonly space: number;
  readonly spent: number;
  /**
   * `free`: no limit binds, each bait has its own best load. `exact`: the least cost within the
   * limits. `greedy`: the basket is too large to go through; each next bait was the one that saves
   * most for the room and money it takes, which is the least cost where all baits take alike.
   */
  readonly method: 'free' | 'exact' | 'greedy';
}

/**
 * The loads that cost least on average within a tank and a budget.
 * Throws on a cost, space or price below 0. Not estimable where a bait left over costs nothing and
 * no limit holds its load.
 * Source: newsvendor with several products and constraints, Hadley & Whitin 1963, Analysis of
 * Inventory Systems, ch. 6.
 */
export function allocateLoads(
  baits: readonly BaitDemand[],
  limits: LoadLimits,
): Allocation | Refusal {
  const most = baits.map((bait) => mostWorthLoading(bait, limits));
  if (most.some((load) => load === Number.POSITIVE_INFINITY))
    return refuse('A bait left over costs nothing and nothing limits the load.');
  if (fits(needsOf(baits, most), limits)) {
    const isFree = baits.every((bait, i) => mostWorthLoading(bait, NO_LIMITS) === most[i]);
    return described(baits, most, isFree ? 'free' : 'exact');
  }
  const exact = exactLoads(baits, most, limits);
  return exact === null
    ? described(baits, greedyLoads(baits, most, limits), 'greedy')
    : described(baits, exact, 'exact');
}

const NO_LIMITS = { tank: Number.POSITIVE_INFINITY, budget: Number.POSITIVE_INFINITY };

/** The best load of a bait by itself, or what the limits allow of it if that is less. */
function mostWorthLoading(bait: BaitDemand, { tank, budget }: LoadLimits): number {
  for (const need of [bait.space, bait.price])
    if (!(need >= 0 && Number.isFinite(need)))
      throw new RangeError(`Room and price of a bait are 0 or more, not ${need}.`);
  for (const limit of [tank, budget])
    if (!(limit >= 0)) throw new RangeError(`A limit on the load is 0 or more, not ${limit}.`);
  if (bait.shortCost === 0) return 0;
  const { most = Number.POSITIVE_INFINITY } = bait;
  const allowed = Math.min(most, largest(tank, bait.space), largest(budget, bait.price));
  return Math.min(countQuantile(bait.law, criticalRatio(bait)), allowed);
}

/** How many times `each` goes into `limit`; something of no size goes in without end. */
function largest(limit: number, each: number): number {
  return each === 0 ? Number.POSITIVE_INFINITY : Math.floor((limit / each) * (1 + 1e-9));
}

function described(
  baits: readonly BaitDemand[],
  loads: readonly number[],
  method: Allocation['method'],
): Allocation {
  const expectedCost = baits.reduce(
    (sum, bait, i) => sum + loadOutcome(bait.law, loads[i] as number, bait).expectedCost,
    0,
  );
  return { kind: 'allocated', loads, expectedCost, ...needsOf(baits, loads), method };
}
