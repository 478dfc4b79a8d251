import { estimated } from '../base/estimate.ts';
import { sequenceOfPairedDifferences } from '../stats/sequence-paired-differences.ts';
import { NO_SEQUENCE_OF_PAIRED_RATES } from '../stats/sequence-paired-rates.ts';
import type { Measure } from '../tally/measures.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { SeasonCourse } from './comparison.ts';
import type { TripPair } from './level-pairs.ts';
import { isProportion } from './proportion.ts';

/**
 * How the same-day difference stood after each trip that fished both levels, under the always-valid
 * interval, and since when it has been clear. Rates have no such interval, which is said.
 * @param pairs in the order of the trips.
 */
export function seasonCourse(
  pairs: readonly TripPair[],
  season: TidySeason,
  { measure, level }: { readonly measure: Measure; readonly level: number },
): SeasonCourse {
  const none = { steps: [], clearSince: null };
  if (!isProportion(measure)) return { ...none, refused: NO_SEQUENCE_OF_PAIRED_RATES.reason };
  const sequence = sequenceOfPairedDifferences(
    pairs.map(({ x1, n1, x2, n2 }) => ({
      successesA: x1,
      unitsA: n1,
      successesB: x2,
      unitsB: n2,
    })),
    { level },
  );
  if (sequence.kind === 'not-estimable') return { ...none, refused: sequence.reason };
  const dates = new Map(season.trips.map((trip) => [trip.trip_id, trip.date]));
  const dateOf = (trip: number) => dates.get(pairs[trip]?.trip_id ?? '') ?? '';
  return {
    steps: sequence.steps.map(({ trip, estimate, lower, upper }, at) => ({
      date: dateOf(trip),
      difference: estimated({
        estimate,
        lower,
        upper,
        level,
        method: sequence.method,
        n: at + 1,
        exposure: null,
        notes: [],
      }),
    })),
    clearSince: sequence.clearSince === null ? null : dateOf(sequence.clearSince),
    refused: null,
  };
}
