import { type Estimate, mapEstimate } from '../base/estimate.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import type { RespoolAge } from './respool-age.ts';
import { knownPrices, type RespoolPrices } from './respool-prices.ts';

/** What a season costs on one line type, as its reels were filled and at the best age. */
export interface SeasonCost {
  /** The fights it is told for: all of the season's, so that line types can be compared. */
  readonly fights: number;
  /** What was logged of this line type: fillings fished, and fish lost to broken line. */
  readonly fillings: number;
  readonly breaks: number;
  /** Fights that one filling had on average. */
  readonly fightsPerFilling: number;
  /** As fillings and breaks came in this log; its interval is that of the breaks. */
  readonly actual: Estimate | null;
  /** Reels filled at the advised age; its interval is from resampled trips. */
  readonly best: Estimate | null;
  /** Why there is no cost; null where there is. */
  readonly reason: string | null;
}

/**
 * Season cost of a line type: (fillings × price of a filling + breaks × price of a lost fish) a
 * fight, times the fights of the whole season on any line. A filling still on the reel at the end
 * counts whole, so what was actually spent is told a little too high.
 */
export function seasonCost(
  line: LineWear,
  advice: RespoolAge,
  { prices, seasonFights }: { readonly prices: RespoolPrices; readonly seasonFights: number },
): SeasonCost {
  const fillings = line.spools.length;
  const counted = {
    fights: seasonFights,
    fillings,
    breaks: line.breaks,
    fightsPerFilling: fillings === 0 ? 0 : line.fights / fillings,
  };
  const known = knownPrices(prices, line.lineType);
  if (typeof known === 'string') return { ...counted, actual: null, best: null, reason: known };
  if (line.fights === 0) {
    return { ...counted, actual: null, best: null, reason: 'No fight is logged on it.' };
  }
  const fillingsPerFight = fillings / line.fights;
  return {
    ...counted,
    actual: mapEstimate(line.breaksPerFight, (breaksPerFight) => {
      const costPerFight = known.spoolCost * fillingsPerFight + known.lostFish * breaksPerFight;
      return costPerFight * seasonFights;
    }),
    best:
      advice.kind === 'advised'
        ? mapEstimate(advice.leastCostPerFight, (costPerFight) => costPerFight * seasonFights)
        : null,
    reason: advice.kind === 'advised' ? null : advice.reason,
  };
}
