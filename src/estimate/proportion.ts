import { wilsonTrip, withinTripCorrelation } from '../stats/clustered-wilson-trip.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { Figure } from './figure.ts';
import { PLAIN_PROPORTIONS, type ProportionMethod } from './methods.ts';

type Proportion = 'hookup_rate' | 'caught_rate' | 'release_rate' | 'bite_to_boat';

/** Whether a measure is a share of something counted, and not a rate per line-hour. */
export function isProportion(measure: Measure): measure is Proportion {
  return MEASURES[measure].kind === 'proportion';
}

/**
 * A proportion of one group with its interval; trips are the clusters.
 * @param rows the group's tallies, one a trip.
 * @returns not estimable where nothing of the denominator was counted.
 */
export function proportionOf(
  measure: Proportion,
  rows: readonly TallyRow[],
  options: {
    readonly level: number;
    readonly correlation: number | null;
    readonly proportionMethod?: ProportionMethod;
  },
): Figure {
  const trips = clustersOf(measure, rows);
  const numerator = trips.reduce((sum, trip) => sum + trip.successes, 0);
  const denominator = trips.reduce((sum, trip) => sum + trip.units, 0);
  const { level, correlation, proportionMethod = 'wilson-trip' } = options;
  if (proportionMethod !== 'wilson-trip') {
    const rate = PLAIN_PROPORTIONS[proportionMethod](numerator, denominator, { level });
    return { rate, numerator, denominator, trips: trips.length, design_effect: null };
  }
  const rate = wilsonTrip(trips, { level, borrowedCorrelation: correlation });
  return { rate, numerator, denominator, trips: trips.length, design_effect: rate.designEffect };
}

/**
 * How alike bites of one trip are over the whole filtered log: what a group that is all or none
 * borrows, having no variance of its own. null where the log cannot tell.
 */
export function borrowedCorrelation(
  measure: Proportion,
  wholeLog: readonly TallyRow[],
): number | null {
  return withinTripCorrelation(clustersOf(measure, wholeLog));
}

function clustersOf(measure: Proportion, rows: readonly TallyRow[]) {
  const { numerator, denominator } = MEASURES[measure];
  return rows
    .filter((row) => row[denominator] > 0)
    .map((row) => ({ successes: row[numerator], units: row[denominator] }));
}
