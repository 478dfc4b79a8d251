import { noiseFrom } from './geometric-noise.ts';
import { catchBySpecies } from './group-figures.ts';
import { keyedUniforms } from './pseudonym.ts';
import type { NoiseChoice } from './share-options.ts';
import { type Fates, NO_FATES, type ShareTrip } from './share-trip.ts';

const FATES = ['kept', 'released', 'lost'] as const;

/** Counts of one row: fish by species and fate, and missed bites. */
export interface RowCounts {
  readonly missed: number;
  readonly catches: ReadonlyMap<string, Fates>;
}

/**
 * The counts of a row with two-sided geometric noise on each, none below zero. Every bite stands in
 * exactly one of them, so that a trip cut to `clip` bites changes them by `clip` in all, and the row
 * as a whole keeps its ε. The noise follows from the owner's key and the row itself: the same row
 * once more carries the same noise, and cannot be averaged away.
 *
 * @param species the codes to give; those the row has none of carry noise as well.
 */
export function noisyCounts(
  trips: readonly ShareTrip[],
  noise: NoiseChoice,
  { key, species }: { readonly key: Buffer; readonly species: readonly string[] },
): RowCounts {
  const clipped = trips.map((trip) => clippedTrip(trip, noise.clip));
  const level = { epsilon: noise.epsilon, sensitivity: noise.clip };
  const row = clipped.map((trip) => trip.trip_id).sort();
  const noisy = (count: number, what: string) => {
    const uniforms = keyedUniforms(key, [...row, what, String(count), JSON.stringify(noise)]);
    return Math.max(0, count + noiseFrom(uniforms, level));
  };
  const sums = catchBySpecies(clipped);
  const catches = species.map((code): [string, Fates] => {
    const sum = sums.get(code) ?? NO_FATES;
    const fates = FATES.map((fate) => [fate, noisy(sum[fate], `${code} ${fate}`)]);
    return [code, Object.fromEntries(fates) as unknown as Fates];
  });
  const missed = clipped.reduce((sum, trip) => sum + trip.missed, 0);
  return { missed: noisy(missed, 'missed'), catches: new Map(catches) };
}

/** A trip with at most `clip` bites: what is over is taken off, missed bites first, then by code. */
function clippedTrip(trip: ShareTrip, clip: number): ShareTrip {
  let over = trip.bites - clip;
  const less = (count: number) => {
    const taken = Math.min(count, Math.max(0, over));
    over -= taken;
    return count - taken;
  };
  if (over <= 0) return trip;
  const missed = less(trip.missed);
  const catches = [...trip.catches].sort().map(([code, fates]): [string, Fates] => {
    const cut = FATES.map((fate) => [fate, less(fates[fate])]);
    return [code, Object.fromEntries(cut) as unknown as Fates];
  });
  return { ...trip, bites: Math.min(trip.bites, clip), missed, catches: new Map(catches) };
}
