import { type CountDistribution, countCdf } from '../stats/count-distribution.ts';
import { enoughAlive } from '../stats/newsvendor-survivors.ts';

/** Baits still in the well from another day, and the share of them that lives to be used. */
export interface HeldBaits {
  readonly count: number;
  readonly survival: number;
}

/**
 * How many to buy beside the baits still held, so that the chance of having enough is the one asked
 * for: the smallest number b with P(use ≤ b + survivors) at or above `chance`, each held bait living
 * by itself. Where deaths come together (oxygen, heat) more are needed.
 * @param chance above 0 and below 1.
 * Source: newsvendor with random stock on hand; binomial survival.
 */
export function baitsToBuy(law: CountDistribution, held: HeldBaits, chance: number): number {
  const shares = survivorShares(held);
  const isEnough = (buy: number): boolean =>
    shares.reduce((sum, share, alive) => sum + share * countCdf(law, buy + alive), 0) >=
    chance - SAME;
  let [below, above] = [-1, 1];
  while (!isEnough(above)) [below, above] = [above, 2 * above];
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2);
    if (middle >= 0 && isEnough(middle)) above = middle;
    else below = middle;
  }
  return above;
}

/** Sums of probabilities carry rounding. */
const SAME = 1e-12;

/** P(exactly k of the held baits live), for k from 0 to all of them. */
function survivorShares({ count, survival }: HeldBaits): number[] {
  return Array.from({ length: count + 1 }, (_, alive) => {
    const more = alive === count ? 0 : enoughAlive(count, alive + 1, survival);
    return enoughAlive(count, alive, survival) - more;
  });
}
