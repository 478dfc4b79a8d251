import type { Interval } from '../base/estimate.ts';

/**
 * One option (a bait, a position) after its own record has been drawn towards the common rate.
 * `lower` and `upper` are the limits to show: they count the doubt about how much options differ,
 * and hold `posteriorMean`.
 */
export interface ShrunkenOption extends Interval {
  /** Its own rate: successes/trials or events/exposure; null where it was never tried. */
  readonly raw: number | null;
  readonly posteriorMean: number;
  /**
   * Limits of the textbook form, as if the fitted common distribution were known for certain. Of
   * the true rates in simulated tables of 4 to 15 options, such 90 % limits held 70–94 %, in most
   * settings below 80 %; the ones to show held 88–99 %.
   */
  readonly posteriorLower: number;
  readonly posteriorUpper: number;
  /** Share of its own record in `posteriorMean`, 0 to 1; the rest is the common rate. */
  readonly shrinkWeight: number;
}

/**
 * Below this gain in log-likelihood over "all options are the same" a spread is not worth the name:
 * the 5 % point of the likelihood-ratio test at the edge of the parameter space, halved.
 * Source: Self & Liang 1987, J. Am. Stat. Assoc. 82:605.
 */
const WORTHWHILE_GAIN = 2.706 / 2;

/** Fewer options than this tell little of how options differ. Common practice, no source. */
const FEW_OPTIONS = 5;

export const NO_SPREAD =
  'The options differ no more than chance would make them, so each is given the common rate.';

/** What a reader must know about a fitted spread. */
export function spreadNotes(logLikelihoodGain: number, options: number): string[] {
  const notes: string[] = [];
  if (logLikelihoodGain < WORTHWHILE_GAIN)
    notes.push('The options differ hardly more than chance would make them.');
  if (options < FEW_OPTIONS)
    notes.push(`Only ${options} options: how much options differ is little more than a guess.`);
  return notes;
}
