import type { Reach } from '../../src/settings/settings.ts';
import { at } from './at.ts';
import { logistic } from './draws.ts';
import type { PlannedTrip } from './plan-trips.ts';
import type { Band, World } from './world.ts';

/** What a line fishes with at one moment. */
export interface Rigged {
  readonly reach: Reach;
  readonly bait: string;
  readonly hook_size: string;
  readonly leader_lb: number;
  readonly line_type: string;
}

/** Parts of a trip that its chances hang on. */
export type Day = Pick<PlannedTrip, 'month' | 'weather' | 'area'>;

/**
 * Bites per line-hour at a minute (counted from the trip's midnight), without the day's own luck and
 * without bursts: what the truth expects.
 */
export function expectedRate(
  world: World,
  day: Day,
  { reach, bait, minute }: Pick<Rigged, 'reach' | 'bait'> & { readonly minute: number },
): number {
  const { per_line_hour, hour_of_day, wind_kn, current_kn } = world.bites;
  return (
    per_line_hour *
    day.month.bites *
    at(world.areas, day.area).bites *
    bandOf(wind_kn, day.weather.wind_kn) *
    bandOf(current_kn, day.weather.current_kn) *
    (hour_of_day[Math.floor(minute / 60) % 24] as number) *
    world.reaches[reach].bites *
    at(world.baits, bait).bites
  );
}

/**
 * The multiplier of bursts: high inside one, below 1 outside, so that the average over a trip of
 * this world is 1.
 */
export function burstMultiplier(world: World, trip: PlannedTrip, minute: number): number {
  const { per_hour, minutes, times } = world.bites.bursts;
  const share = 1 - Math.exp((-per_hour * (minutes[0] + minutes[1])) / 2 / 60);
  const outside = 1 / (1 + share * (times - 1));
  const inside = trip.bursts.some(({ from, to }) => minute >= from && minute < to);
  return inside ? times * outside : outside;
}

/** Logit of the chance that a bite is hooked, without the day's own luck. */
export function hookupLogit(world: World, day: Day, rigged: Rigged): number {
  const { base_logit, wind_logit_per_kn } = world.hookup;
  return (
    base_logit +
    day.month.hookup_logit +
    wind_logit_per_kn * (day.weather.wind_kn - 10) +
    world.reaches[rigged.reach].hookup_logit +
    at(world.baits, rigged.bait).hookup_logit +
    at(world.hook_sizes, rigged.hook_size).hookup_logit +
    at(world.leaders.hookup_logit, String(rigged.leader_lb)) +
    at(world.line_types, rigged.line_type).hookup_logit
  );
}

/** Chance of a hookup when the day adds its own effect to the logit. */
export function hookupChance(world: World, trip: PlannedTrip, rigged: Rigged): number {
  return logistic(hookupLogit(world, trip, rigged) + trip.dayHookup);
}

/** Chance that the line breaks on its a-th fight since the filling: Λ(a) − Λ(a − 1). */
export function breakChance(world: World, lineType: string, fight: number): number {
  const { beta, theta_fights } = at(world.line_types, lineType).wear;
  return Math.min(1, (fight / theta_fights) ** beta - ((fight - 1) / theta_fights) ** beta);
}

function bandOf(bands: readonly Band[], value: number): number {
  const band = bands.find(({ below }) => below === null || value < below);
  return band === undefined ? 1 : band.bites;
}
