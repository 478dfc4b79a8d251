import type { Costs } from '../settings/settings.ts';
import { type BaitCosts, criticalRatio } from '../stats/newsvendor.ts';

/** What a bait too few and one left over cost, and the chance of having enough that follows. */
export interface LoadCosts extends BaitCosts {
  /** The chance of having enough at which one more bait costs as much as it saves, 0 to 1. */
  readonly ratio: number;
}

/** The two costs, or the sentence that says which numbers to add or mend. */
export function loadCosts({ bait_short, bait_left }: Costs): LoadCosts | string {
  if (bait_short === null || bait_left === null) {
    const short = 'what a bait too few costs you (costs: bait_short)';
    const left = 'what a bait left over costs you (costs: bait_left)';
    const missing = [
      ...(bait_short === null ? [short] : []),
      ...(bait_left === null ? [left] : []),
    ];
    return `For the load that costs least, add to season.yaml ${missing.join(' and ')}.`;
  }
  if (bait_left === 0) {
    return 'A bait left over is set to cost nothing (costs: bait_left), so no load would be too large.';
  }
  const costs = { shortCost: bait_short, leftCost: bait_left };
  return { ...costs, ratio: criticalRatio(costs) };
}
