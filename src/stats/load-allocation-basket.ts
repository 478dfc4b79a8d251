import { type CountDistribution, countPmf, countTail } from './count-distribution.ts';
import type { BaitCosts } from './newsvendor.ts';

/** One kind of bait that may be loaded. */
export interface BaitDemand extends BaitCosts {
  readonly law: CountDistribution;
  /** Room one bait takes in the tank, and its price; in one unit each for all baits, 0 or more. */
  readonly space: number;
  readonly price: number;
  /** The most of it that may be loaded, whatever it saves; no bound where left out. */
  readonly most?: number;
}

/** What bounds all baits together; Infinity for no bound. */
export interface LoadLimits {
  readonly tank: number;
  readonly budget: number;
}

/** Sums of prices carry rounding: a bound is kept if it is passed by no more than this share. */
const ROUNDING = 1e-9;

/** Room and money that a list of loads takes. */
export function needsOf(
  baits: readonly BaitDemand[],
  loads: readonly number[],
): { readonly space: number; readonly spent: number } {
  return baits.reduce(
    ({ space, spent }, bait, i) => ({
      space: space + bait.space * (loads[i] as number),
      spent: spent + bait.price * (loads[i] as number),
    }),
    { space: 0, spent: 0 },
  );
}

/** Whether room and money stay within the limits. */
export function fits(
  { space, spent }: { readonly space: number; readonly spent: number },
  { tank, budget }: LoadLimits,
): boolean {
  return space <= tank * (1 + ROUNDING) && spent <= budget * (1 + ROUNDING);
}

/**
 * What the bait after `load` saves on average: short·P(use > load) − left·P(use ≤ load). It falls
 * as the load grows and is negative beyond the best load of the bait by itself.
 * Source: marginal analysis, Hadley & Whitin 1963, Analysis of Inventory Systems, ch. 6.
 */
export function savingOfNext({ law, shortCost, leftCost }: BaitDemand, load: number): number {
  const tail = countTail(law, load);
  return shortCost * tail - leftCost * (1 - tail);
}

/** `savingOfNext` for loads 0 to `most` − 1, by stepping the probabilities. */
export function savingsUpTo(bait: BaitDemand, most: number): number[] {
  let tail = 1;
  return Array.from({ length: most }, (_, load) => {
    tail -= countPmf(bait.law, load);
    return bait.shortCost * tail - bait.leftCost * (1 - tail);
  });
}
