import { groupBy } from '../base/group-by.ts';
import { isTooClose } from './p-percent.ts';

/** What the rule of thumb asks of every figure that leaves: enough boats and enough trips. */
export interface Thresholds {
  /** 1 where the only boat of a log leaves with its owner's consent. */
  readonly minVessels: number;
  readonly minTrips: number;
}

/** One trip as the rules see it. */
export interface Contribution {
  /** One text a vessel, whatever the spelling in the log; empty where the log does not say. */
  readonly vessel: string;
  /** Line-hours, or hours, or 1 a trip: by what one vessel could stand out from the others. */
  readonly effort: number;
}

/** Handbooks use 5 to 20; ten of a hundred is common practice, no source. */
const CLOSENESS_PERCENT = 10;

/**
 * Whether the sum over these trips may be shown: trips and vessels enough and, where three or more
 * vessels must hide behind each other, none whose effort the second largest could work out closely.
 * Source: the usual rule of three (WCPFC Rules and Procedures for data, para. 9); Hundepool et al.
 */
export function mayPublish(trips: readonly Contribution[], thresholds: Thresholds): boolean {
  const { minVessels, minTrips } = thresholds;
  if (trips.length < Math.max(1, minTrips) || vesselCount(trips) < minVessels) return false;
  if (minVessels < 3) return true;
  const byVessel = groupBy(trips, (trip) => trip.vessel);
  const efforts = [...byVessel.values()].map((own) => own.reduce((sum, t) => sum + t.effort, 0));
  return !isTooClose(efforts, CLOSENESS_PERCENT);
}

/**
 * How many different vessels made these trips, at the least: a trip without a name may be of any of
 * the vessels that are named.
 */
export function vesselCount(trips: readonly Pick<Contribution, 'vessel'>[]): number {
  const vessels = new Set(trips.map((trip) => trip.vessel));
  return vessels.has('') && vessels.size > 1 ? vessels.size - 1 : vessels.size;
}
