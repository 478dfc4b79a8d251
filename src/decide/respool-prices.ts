import { median } from 'simple-statistics';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** The two prices that a respool age hangs on, in the currency of the settings. */
export interface RespoolPrices {
  /** One filling of a reel with this line type; null: not known. */
  readonly spoolCost: number | null;
  /** Where it is from: `costs.spool` of the settings, or the median of `spools.csv`. */
  readonly spoolCostFrom: 'settings' | 'spools' | null;
  /** What one fish lost to a broken line costs; null: not set. */
  readonly lostFish: number | null;
}

/** The prices of a line type: the settings first, then what was paid for fillings in the log. */
export function respoolPrices({ log, spools }: TidySeason, lineType: string): RespoolPrices {
  const { spool, lost_fish: lostFish } = log.settings.costs;
  const set = spool[lineType];
  if (set !== undefined) return { spoolCost: set, spoolCostFrom: 'settings', lostFish };
  const paid = spools.all.flatMap(({ line_type, cost }) =>
    line_type === lineType && cost !== null ? [cost] : [],
  );
  if (paid.length === 0) return { spoolCost: null, spoolCostFrom: null, lostFish };
  return { spoolCost: median(paid), spoolCostFrom: 'spools', lostFish };
}

/** Both prices, where both are above 0. */
export interface KnownPrices {
  readonly spoolCost: number;
  readonly lostFish: number;
}

/** The prices, or the sentence that says which numbers to add or why they give no age. */
export function knownPrices(
  { spoolCost, lostFish }: RespoolPrices,
  lineType: string,
): KnownPrices | string {
  if (spoolCost === null || lostFish === null) return pricesToAdd(spoolCost, lostFish, lineType);
  if (lostFish === 0) {
    return 'A fish lost to a broken line is set to cost nothing, so no filling ever pays.';
  }
  if (spoolCost === 0) {
    return `A filling of ${lineType} is set to cost nothing, so new line every trip costs least.`;
  }
  return { spoolCost, lostFish };
}

function pricesToAdd(spoolCost: number | null, lostFish: number | null, lineType: string): string {
  const spool = `what a filling costs (costs: spool: ${lineType})`;
  const fish = 'what a fish lost to a broken line costs you (costs: lost_fish)';
  const missing = [...(spoolCost === null ? [spool] : []), ...(lostFish === null ? [fish] : [])];
  return `For the age that costs least, add to season.yaml ${missing.join(' and ')}.`;
}
