import { groupBy } from '../base/group-by.ts';
import { dayNumber } from '../base/zone.ts';
import type { BaitBuyRow } from '../read/rows.ts';
import { wholePiece } from '../tally/effort-pieces.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { Question } from '../tally/question.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';

/** What became of one bait on one trip. */
export interface BaitTrip {
  readonly trip: TidyTrip;
  /** Baits put on a hook, by the soaks. */
  readonly deployed: number;
  /** Baits that died before they were used; 0 also where it was not recorded. */
  readonly died: number;
  /** Deployed + died. */
  readonly used: number;
  /** Baits bought or caught for the trip. */
  readonly bought: number;
  /** Whether the well was empty before the day was over, so that more would have been used. */
  readonly ranOut: boolean;
}

/** One bait over all trips that have soaks, those without it included. */
export interface BaitTrips {
  readonly bait: string;
  /** In the order of the season. */
  readonly trips: readonly BaitTrip[];
  /** Rows of soaks with it. */
  readonly soaks: number;
  readonly purchases: readonly BaitBuyRow[];
}

/** The part of a log that bait use can be asked for: what differs between lines cannot cut it. */
export type BaitFilter = Pick<Question, 'only' | 'from' | 'to'>;

/** The factors in a filter that the use of a bait cannot be cut down to. */
export function cutsBaitUse(only: BaitFilter['only']): readonly FactorName[] {
  const names = Object.keys(only) as FactorName[];
  return names.filter((name) => name !== 'bait' && factorOf(name).scope !== 'trip');
}

/**
 * Use of every bait on every trip that has a soak row, zeros included, in the order of the settings.
 * A purchase belongs to the trip it names, else to the first trip on its day or within the week
 * after it. Filters by anything but the trip and the bait are not looked at; see `cutsBaitUse`.
 */
export function baitTrips(season: TidySeason, filter: BaitFilter): BaitTrips[] {
  const soaks = (season.soaks ?? []).filter(({ trip }) => isTripAsked(trip, filter));
  const withSoaks = new Set(soaks.map((soak) => soak.trip_id));
  const trips = season.trips.filter((trip) => withSoaks.has(trip.trip_id));
  const buysOf = groupBy(purchasesByTrip(season), ({ buy }) => buy.bait);
  const soaksOf = groupBy(soaks, (soak) => soak.bait ?? NOT_RECORDED);
  const isBaitAsked = (bait: string) => filter.only.bait?.includes(bait) ?? true;
  const baits = [...new Set([...soaksOf.keys(), ...buysOf.keys()])]
    .filter((bait) => bait !== NOT_RECORDED && isBaitAsked(bait))
    .sort(factorOf('bait').order(season.log.settings));
  return baits.flatMap((bait) => {
    const fished = groupBy(soaksOf.get(bait) ?? [], (soak) => soak.trip_id);
    const bought = groupBy(buysOf.get(bait) ?? [], ({ trip }) => trip?.trip_id ?? null);
    const ofBait = trips.map((trip) => {
      const buys = (bought.get(trip.trip_id) ?? []).map(({ buy }) => buy);
      const deployed = sum((fished.get(trip.trip_id) ?? []).map((soak) => soak.baits_used));
      const died = sum(buys.map((buy) => buy.died ?? 0));
      const ranOut = buys.some((buy) => buy.ran_out === true);
      const used = deployed + died;
      return { trip, deployed, died, used, bought: sum(buys.map((buy) => buy.count)), ranOut };
    });
    const purchases = (buysOf.get(bait) ?? [])
      .filter(({ buy, trip }) => isDayAsked(buy.date, filter) || trip !== null)
      .filter(({ trip }) => trip === null || isTripAsked(trip, filter))
      .map(({ buy }) => buy);
    const met = ofBait.some(({ used, bought: count }) => used > 0 || count > 0);
    return met ? [{ bait, trips: ofBait, soaks: (soaksOf.get(bait) ?? []).length, purchases }] : [];
  });
}

/** How long bait is taken to have waited for its trip. Common practice, no source. */
const WAITING_DAYS = 7;

function purchasesByTrip({ log, trips }: TidySeason) {
  const byId = new Map(trips.map((trip) => [trip.trip_id, trip]));
  return (log.baitBuys ?? []).map((buy) => {
    if (buy.trip_id !== null) return { buy, trip: byId.get(buy.trip_id) ?? null };
    const day = dayNumber(buy.date);
    const next = trips.find(({ date }) => date >= buy.date);
    const isNear = next !== undefined && dayNumber(next.date) - day <= WAITING_DAYS;
    return { buy, trip: isNear ? next : null };
  });
}

function isDayAsked(date: string, { from, to }: BaitFilter): boolean {
  return (from === null || date >= from) && (to === null || date <= to);
}

function isTripAsked(trip: TidyTrip, filter: BaitFilter): boolean {
  if (!isDayAsked(trip.date, filter)) return false;
  return (Object.entries(filter.only) as [FactorName, readonly string[]][]).every(
    ([name, kept]) => {
      const factor = factorOf(name);
      if (factor.scope !== 'trip') return true;
      const level = factor.ofEffort(wholePiece({ trip, ...NO_LINE }));
      return kept.includes(String(level ?? NOT_RECORDED));
    },
  );
}

/** What differs between lines does not matter to a factor of the trip. */
const NO_LINE = { soak: null, position: null, lineHours: 0, start: null, end: null };

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
