import { countQuantile } from './count-distribution.ts';
import {
  type BaitDemand,
  fits,
  type LoadLimits,
  needsOf,
  savingOfNext,
} from './load-allocation-basket.ts';

/** Prices of room and money nearer than this share are one price. */
const SAME_PRICE = 1e-12;

/**
 * Loads by greatest saving for the room and money taken, each as a share of its limit, until no
 * further bait both fits and saves. `most` bounds each load from above.
 * The bulk is found at once, by the price of room and money at which everything just fits: stepping
 * bait by bait would take for ever on large loads. What is then left is filled bait by bait.
 * Source: common practice for separable concave knapsacks; Everett 1963, Oper. Res. 11:399.
 */
export function greedyLoads(
  baits: readonly BaitDemand[],
  most: readonly number[],
  limits: LoadLimits,
): number[] {
  const weights = baits.map(
    ({ space, price }) => part(space, limits.tank) + part(price, limits.budget),
  );
  const atPrice = (price: number): number[] =>
    baits.map((bait, i) => loadAtPrice(bait, price * (weights[i] as number), most[i] as number));
  const fitting = (loads: readonly number[]): boolean => fits(needsOf(baits, loads), limits);
  const count = (loads: readonly number[]): number => loads.reduce((sum, load) => sum + load, 0);
  let [cheap, dear] = [0, 1];
  let [over, within] = [count(most), atPrice(dear)];
  while (!fitting(within)) {
    [cheap, dear, over] = [dear, 2 * dear, count(within)];
    within = atPrice(dear);
  }
  while (over - count(within) > baits.length && dear - cheap > SAME_PRICE * dear) {
    const middle = (cheap + dear) / 2;
    const loads = atPrice(middle);
    if (fitting(loads)) [dear, within] = [middle, loads];
    else [cheap, over] = [middle, count(loads)];
  }
  return filled(baits, within, { most, weights, limits });
}

/** Takes a limit of 0 as one that only baits of no size can pass. */
const part = (need: number, limit: number): number => (need === 0 ? 0 : need / limit);

/** The load at which the next bait no longer saves more than `price`. */
function loadAtPrice(bait: BaitDemand, price: number, most: number): number {
  const { shortCost, leftCost, law } = bait;
  const ratio = (shortCost - price) / (shortCost + leftCost);
  return ratio > 0 ? Math.min(most, countQuantile(law, ratio)) : 0;
}

interface Fill {
  readonly most: readonly number[];
  readonly weights: readonly number[];
  readonly limits: LoadLimits;
}

function filled(baits: readonly BaitDemand[], start: readonly number[], fill: Fill): number[] {
  const loads = [...start];
  for (;;) {
    const { space, spent } = needsOf(baits, loads);
    const left = { tank: fill.limits.tank - space, budget: fill.limits.budget - spent };
    const steps = baits.flatMap((bait, i) => {
      const load = loads[i] as number;
      const saving = savingOfNext(bait, load);
      const next = { space: space + bait.space, spent: spent + bait.price };
      const full = load >= (fill.most[i] as number) || !fits(next, fill.limits);
      if (full || saving <= 0) return [];
      const room = Math.min((fill.most[i] as number) - load, goesInto(left, bait));
      const size = alikeFrom(bait, load, room);
      return [{ i, size, worth: saving / (fill.weights[i] as number) }];
    });
    const best = steps.sort((a, b) => b.worth - a.worth)[0];
    if (best === undefined) return loads;
    loads[best.i] = (loads[best.i] as number) + best.size;
  }
}

/** How many baits the room and money that are left hold, at least 1. */
function goesInto({ tank, budget }: LoadLimits, { space, price }: BaitDemand): number {
  const times = (left: number, each: number): number => (each === 0 ? Infinity : left / each);
  return Math.max(1, Math.floor(Math.min(times(tank, space), times(budget, price))));
}

/** How many baits in a row save as much as the next one: far below the need all do. */
function alikeFrom(bait: BaitDemand, load: number, room: number): number {
  const least = (1 - 1e-9) * savingOfNext(bait, load);
  let size = room;
  while (size > 1 && savingOfNext(bait, load + size - 1) < least) size = Math.floor(size / 2);
  return size;
}
