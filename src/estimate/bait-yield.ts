import { type Estimate, estimated, mapEstimate, notEstimable } from '../base/estimate.ts';
import { ratioTrip } from '../stats/clustered-ratio-trip.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type BaitPrice, baitPrice, baitSurvival } from './bait-price.ts';
import type { BaitFilter, BaitTrips } from './bait-trips.ts';
import type { GroupRate } from './group-rate.ts';
import { ratesBy } from './rates.ts';

/** What is counted of a bait: fish that bit, were hooked, were caught. */
export type BaitCount = 'bites' | 'hooked' | 'caught';
export const BAIT_COUNTS = ['bites', 'hooked', 'caught'] as const satisfies readonly BaitCount[];

/** What one bait brought, by the hour, by the bait and by the money; trips are the clusters. */
export interface BaitYield {
  readonly bait: string;
  readonly use: BaitTrips;
  readonly deployed: number;
  readonly died: number;
  /** Deployed + died: what the bait figures divide by. */
  readonly used: number;
  readonly bought: number;
  /** Per line-hour with this bait on. */
  readonly perHour: Readonly<Record<BaitCount, GroupRate | null>>;
  /** Per bait used. */
  readonly perBait: Readonly<Record<BaitCount, Estimate>>;
  /** Per unit of money spent on baits used, at the bait's mean price; null without a price. */
  readonly perMoney: Readonly<Record<BaitCount, Estimate>> | null;
  /** Money a fish caught, on baits used and on all baits bought; null without a price. */
  readonly costPerFish: { readonly used: Estimate; readonly bought: Estimate } | null;
  readonly price: BaitPrice | null;
  readonly survival: number | null;
}

/** The rates per line-hour of the three counts. */
export const BAIT_RATES = {
  bites: 'bites_per_line_hour',
  hooked: 'hookups_per_line_hour',
  caught: 'caught_per_line_hour',
} as const;

/**
 * Yield of every bait as logged. A fish counts for the bait it took, on trips that have soaks, met
 * by a soak or not; the price of a bait is its mean over the log, taken as known.
 */
export function baitYields(
  season: TidySeason,
  baits: readonly BaitTrips[],
  request: BaitFilter & { readonly level: number; readonly seed: number },
): BaitYield[] {
  const measures = Object.values(BAIT_RATES);
  const rates = ratesBy(season, { ...request, by: ['bait'], measures });
  const counts = countsByTrip(season.bites);
  return baits.map((use) => {
    const { bait } = use;
    const hourly = (count: BaitCount) =>
      rates.find((row) => row.by.bait === bait && row.measure === BAIT_RATES[count]) ?? null;
    const perBait = each((count) => perBaitUsed(use, counts[count], request.level));
    const price = baitPrice(use);
    const total = (of: 'deployed' | 'died' | 'used' | 'bought') =>
      use.trips.reduce((sum, trip) => sum + trip[of], 0);
    const [used, bought] = [total('used'), total('bought')];
    return {
      bait,
      use,
      deployed: total('deployed'),
      died: total('died'),
      used,
      bought,
      perHour: each(hourly),
      perBait,
      perMoney: price === null ? null : each((count) => overPrice(perBait[count], price.mean)),
      costPerFish: price === null ? null : costPerFish(perBait.caught, price.mean, bought / used),
      price,
      survival: baitSurvival(use),
    };
  });
}

function each<Value>(of: (count: BaitCount) => Value): Readonly<Record<BaitCount, Value>> {
  return { bites: of('bites'), hooked: of('hooked'), caught: of('caught') };
}

type Counts = ReadonlyMap<string, number>;

const tripBait = (trip: string, bait: string | null) => JSON.stringify([trip, bait]);

function countsByTrip(bites: readonly TidyBite[]): Readonly<Record<BaitCount, Counts>> {
  return each((count) => {
    const counts = new Map<string, number>();
    for (const bite of bites.filter((one) => holds(one, count))) {
      const key = tripBait(bite.trip_id, bite.bait);
      counts.set(key, (counts.get(key) ?? 0) + bite.count);
    }
    return counts;
  });
}

function holds({ outcome }: TidyBite, count: BaitCount): boolean {
  if (count === 'bites') return true;
  return outcome !== 'missed' && (count === 'hooked' || outcome !== 'lost');
}

function perBaitUsed({ bait, trips }: BaitTrips, counts: Counts, level: number): Estimate {
  return ratioTrip(
    trips.map(({ trip, used }) => ({
      events: counts.get(tripBait(trip.trip_id, bait)) ?? 0,
      exposure: used,
    })),
    { level },
  );
}

const FREE = 'This bait cost nothing, so there is no figure per unit of money.';

function overPrice(perBait: Estimate, price: number): Estimate {
  if (perBait.kind === 'not-estimable') return perBait;
  if (price === 0) return without(perBait, FREE);
  return mapEstimate(perBait, (fish) => fish / price);
}

const BOUGHT_TOO_FEW =
  'Fewer baits are logged as bought or caught than were used, so what was left over is not known.';

/** Price over fish per bait, turned round; on baits bought it is dearer by what was not used. */
function costPerFish(perBait: Estimate, price: number, boughtPerUsed: number) {
  const onUsed = fishPrice(perBait, price);
  if (onUsed.kind === 'not-estimable') return { used: onUsed, bought: onUsed };
  if (!(boughtPerUsed >= 1)) return { used: onUsed, bought: without(onUsed, BOUGHT_TOO_FEW) };
  return { used: onUsed, bought: mapEstimate(onUsed, (cost) => boughtPerUsed * cost) };
}

function fishPrice(perBait: Estimate, price: number): Estimate {
  if (perBait.kind === 'not-estimable') return perBait;
  const { estimate, lower, upper, ...basis } = perBait;
  if (estimate === 0) return without(perBait, NO_FISH);
  return estimated({
    ...basis,
    estimate: price / estimate,
    lower: price / upper,
    upper: price / lower,
  });
}

const NO_FISH = 'No fish was caught with it, so there is no cost per fish.';

/** What the figure rests on, without the figure. */
function without({ level, method, n, exposure, notes }: Estimate, reason: string): Estimate {
  return notEstimable(reason, { level, method, n, exposure, notes });
}
