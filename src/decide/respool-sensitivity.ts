import type { Estimate } from '../base/estimate.ts';
import { fromWearLaw, type WearLaw } from '../estimate/wear-power-law.ts';
import { bestRespoolAge } from '../stats/replacement-minimal-repair.ts';

/** The respool age if a lost fish were worth something else. */
export interface RespoolAtPrice {
  /** A lost fish over a filling: 2 where it costs as much as two fillings. */
  readonly fishPerFilling: number;
  /** The price of the lost fish itself; null where prices are not known. */
  readonly lostFish: number | null;
  /** Age in fights, with its interval from resampled trips; the upper end may be Infinity. */
  readonly age: Estimate;
}

/** The price of a lost fish against the one that is set, or against a filling where none is. */
const TIMES = [0.5, 0.75, 1, 1.5, 2];
const FILLINGS = [0.5, 1, 2, 4, 8];

/**
 * How much the respool age hangs on what a lost fish is taken to cost: the age at half to twice the
 * price that is set; without prices, at fish worth half to eight fillings, which needs no money.
 */
export function respoolAtPrices(
  law: WearLaw,
  prices: { readonly spoolCost: number; readonly lostFish: number } | null,
): RespoolAtPrice[] {
  if (prices === null) {
    return FILLINGS.map((fishPerFilling) => atPrice(law, fishPerFilling, null));
  }
  const { spoolCost, lostFish } = prices;
  return TIMES.map((times) => atPrice(law, (times * lostFish) / spoolCost, times * lostFish));
}

function atPrice(law: WearLaw, fishPerFilling: number, lostFish: number | null): RespoolAtPrice {
  const age = fromWearLaw(law, ({ shape, theta }) => {
    const best = bestRespoolAge({ shape, theta, spoolCost: 1, breakCost: fishPerFilling });
    return best.kind === 'finite' ? best.age : Number.POSITIVE_INFINITY;
  });
  return { fishPerFilling, lostFish, age };
}
