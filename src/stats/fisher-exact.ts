import { type ConditionalOddsRatio, conditionalOddsRatio } from './conditional-odds-ratio.ts';
import type { TwoProportions } from './difference-two-proportions.ts';
import type { Level } from './interval-level.ts';

/**
 * Fisher's exact test of two independent proportions, with the conditional odds ratio and its exact
 * limits: `conditionalOddsRatio` of one table. The two-sided p and the limits come from different
 * ends of the theory and may disagree about 1 in a close case.
 * Source: Fisher 1935, J R Stat Soc 98:39.
 */
export function fisherExact(counts: TwoProportions, { level }: Level): ConditionalOddsRatio {
  return { ...conditionalOddsRatio([counts], { level }), method: 'fisher-exact' };
}
