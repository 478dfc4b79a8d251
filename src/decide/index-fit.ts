import { formatDecimal } from '../base/format-number.ts';
import type { IndexModel } from '../estimate/index-model.ts';
import type { FactorName } from '../tally/factors.ts';

/** Of 100 residuals of a model that holds, 5 lie beyond this to either side. */
const BEYOND_5_PERCENT = 1.96;
/** Of fewer counts 5 in 100 are too few to be counted. */
const FEWEST_COUNTS = 200;
/** Shares of residuals out there, in 100, that are no reason to doubt the model. */
const AS_EXPECTED = { from: 3, to: 7 };

/** Whether the model behind an index fits. */
export interface IndexFit {
  /** Share of the counts that lie where the model expects 5 of 100. */
  readonly beyond: number;
  readonly counts: number;
  readonly sentence: string;
}

/** How many counts lie where the model expects few; null where they are too few to tell. */
export function indexFit({ residuals, unit }: IndexModel, by: FactorName): IndexFit | null {
  const counts = residuals.length;
  if (counts < FEWEST_COUNTS) return null;
  const beyond = residuals.filter((value) => Math.abs(value) > BEYOND_5_PERCENT).length / counts;
  const share = 100 * beyond;
  const found = `${formatDecimal(share, 0)} of 100 ${unit}s lie where the model expects 5`;
  const fits = share >= AS_EXPECTED.from && share <= AS_EXPECTED.to;
  const standardised = by === 'month' ? 'months' : 'figures';
  const sentence = fits
    ? `It fits as far as this tells: ${found}.`
    : `Not in every way: ${found}. Take the standardised ${standardised} with care.`;
  return { beyond, counts, sentence };
}
