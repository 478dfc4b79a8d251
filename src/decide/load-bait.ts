import type { BaitTrips } from '../estimate/bait-trips.ts';
import type { CountFit } from '../stats/censored-count-fit.ts';
import { predictUse } from '../stats/censored-count-predictive.ts';
import { type CountDistribution, countQuantile } from '../stats/count-distribution.ts';
import { bestLoad, type LoadOutcome } from '../stats/newsvendor.ts';
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
  /** Loads that are enough with a stated chance, which need no money. */
  readonly enough: readonly { readonly chance: number; readonly baits: number }[];
  /** What must be read beside it; first of all why there is no load. */
  readonly notes: readonly string[];
}

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
  const predicted = predictUse(trips, { nextTrips });
  if (predicted.kind === 'not-estimable') {
    const none = { fit: null, law: null, best: null, enough: [] };
    return { ...counted, ...none, notes: [predicted.reason] };
  }
  const { law, fit, notes } = predicted;
  const best = costs === null ? null : bestLoad(law, costs);
  return {
    ...counted,
    fit,
    law,
    best: best === null || best.kind === 'not-estimable' ? null : best,
    enough: CHANCES.map((chance) => ({ chance, baits: countQuantile(law, chance) })),
    notes: best?.kind === 'not-estimable' ? [...notes, best.reason] : notes,
  };
}
