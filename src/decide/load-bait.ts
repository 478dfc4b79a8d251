import { formatCount } from '../base/format-number.ts';
import { plural } from '../base/words.ts';
import type { BaitTrips } from '../estimate/bait-trips.ts';
import type { CountFit } from '../stats/censored-count-fit.ts';
import { predictUse } from '../stats/censored-count-predictive.ts';
import { type CountDistribution, countQuantile } from '../stats/count-distribution.ts';
import { bestLoad, type LoadOutcome, loadOutcome } from '../stats/newsvendor.ts';
import type { LoadCosts } from './load-costs.ts';

/** How many of one bait to load. */
export interface BaitLoad {
  readonly bait: string;
  /** Trips the use was learned from. */
  readonly trips: number;
  /** How many of them used it, and how many ran out of it. */
  readonly tripsUsed: number;
  readonly tripsRanOut: number;
  /** Mean baits used on a trip as counted. */
  readonly meanUsed: number | null;
  readonly fit: CountFit | null;
  /** What the next trips may use together. */
  readonly law: CountDistribution | null;
  /** The load of least cost by itself; null without costs, or without a law. */
  readonly best: LoadOutcome | null;
  /** No load goes further, for the log knows nothing of it; Infinity where it never ran out. */
  readonly most: number;
  /** Loads that are enough with a stated chance, which need no money; null: more than `most`. */
  readonly enough: readonly { readonly chance: number; readonly baits: number | null }[];
  /** What must be read beside it; first of all why there is no load. */
  readonly notes: readonly string[];
}

/**
 * No load goes beyond so many times the most that was ever aboard. Where a bait ran out on many
 * trips the law of its use has no end that the log could show: in simulation, ten trips of which six
 * ran out asked for 400 times what was wanted. Common practice, no source.
 */
const FARTHEST = 2;

/** Chances of having enough that are told whatever the costs. */
const CHANCES = [0.5, 0.8, 0.9, 0.95] as const;

/**
 * The load of one bait for so many next trips, from its use on every trip that has soaks (zeros
 * included; at least so many where the well ran out): the smallest that is enough with the chance
 * the costs ask for. A load of 0 is an answer.
 * Source: Arrow, Harris & Marschak 1951 (critical ratio); the law of use as in `predictUse`.
 */
export function baitLoad(
  { bait, trips }: Pick<BaitTrips, 'bait' | 'trips'>,
  { nextTrips, costs }: { readonly nextTrips: number; readonly costs: LoadCosts | null },
): BaitLoad {
  const used = trips.reduce((sum, trip) => sum + trip.used, 0);
  const counted = {
    bait,
    trips: trips.length,
    tripsUsed: trips.filter((trip) => trip.used > 0).length,
    tripsRanOut: trips.filter((trip) => trip.ranOut).length,
    meanUsed: trips.length === 0 ? null : used / trips.length,
  };
  const aboard = trips.reduce((most, trip) => Math.max(most, trip.used, trip.bought), 0);
  const most = counted.tripsRanOut > 0 ? FARTHEST * aboard * nextTrips : Number.POSITIVE_INFINITY;
  const predicted = predictUse(trips, { nextTrips });
  if (predicted.kind === 'not-estimable') {
    const none = { fit: null, law: null, best: null, most, enough: [] };
    return { ...counted, ...none, notes: [predicted.reason] };
  }
  const { law, fit, notes } = predicted;
  const free = costs === null ? null : bestLoad(law, costs);
  const known = free === null || free.kind === 'not-estimable' || costs === null ? null : free;
  const isHeld = known !== null && known.load > most;
  return {
    ...counted,
    fit,
    law,
    best: isHeld && costs !== null ? loadOutcome(law, most, costs) : known,
    most,
    enough: CHANCES.map((chance) => {
      const baits = countQuantile(law, chance);
      return { chance, baits: baits > most ? null : baits };
    }),
    notes: [
      ...notes,
      ...(free?.kind === 'not-estimable' ? [free.reason] : []),
      ...(isHeld ? [heldNote(counted, most)] : []),
    ],
  };
}

function heldNote(
  { trips, tripsRanOut }: Pick<BaitLoad, 'trips' | 'tripsRanOut'>,
  most: number,
): string {
  return (
    `It ran out on ${tripsRanOut} of ${plural(trips, 'trip')}, so how many more were wanted is not ` +
    `known: the load is held to twice the most ever aboard, ${formatCount(most)}. Load that and log what is left.`
  );
}
