import type { Refusal } from '../base/estimate.ts';

/**
 * Why there is no always-valid interval for two rates (bites per line-hour) within trips: the
 * counterpart of `sequenceOfPairedDifferences` for rates is this refusal.
 *
 * Nothing bounds the events of a trip, so nothing bounds a trip's difference of rates, its log ratio
 * or its part of a Mantel–Haenszel ratio, and no bet on them is safe. Given the trip's events, the
 * share that fell to A does lie between 0 and 1, but its mean is known only if both sides rise and
 * fall together: tried on 2,000 simulated seasons of 150 trips, a betting sequence on it covered
 * 97 % where the day moved both sides alike, and 83–88 % where each side had days of its own and one
 * had a fifth of the hours. A log cannot tell which holds.
 */
export const NO_SEQUENCE_OF_PAIRED_RATES: Refusal = {
  kind: 'not-estimable',
  reason:
    'The bites of a trip have no ceiling, so no interval for a difference in rates is known to hold however often it is read. Read the fixed interval once, at the end.',
};
