import type { Rig, World } from './line-world.ts';

/** Lines a trip has out, and the hours each is out on average over trips. */
export const LINES_OUT = 6;
const MEAN_HOURS = 7;

export function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

/** Logit of a hookup on a day like any other. */
export function hookupLogit(world: World, rig: Rig): number {
  return Math.log(world.hookup / (1 - world.hookup)) + sumOfEffects(world, rig, 'hookup');
}

/** Bites per line-hour on average over days, for a line rigged so. */
export function biteRate(world: World, rig: Rig): number {
  const middle = world.bitesPerTrip / (MEAN_HOURS * LINES_OUT);
  return middle * Math.exp(sumOfEffects(world, rig, 'bites'));
}

/**
 * The share of its bites hooked on average over days and moods, for a line rigged so. Where good
 * days bring more bites, more of its bites see such days.
 */
export function hookupShare(world: World, rig: Rig): number {
  const { dayHookup, dayBites, lineByDay, bursts } = world;
  const spread = Math.hypot(dayHookup, lineByDay.hookup / 2, bursts.mood);
  // Weighed by bites, a log-normal day's mood is still normal, with its mean moved by the spread.
  const together = dayBites.law === 'gamma' ? 0 : dayBites.withHookup * dayBites.spread;
  return meanLogistic(hookupLogit(world, rig) + together * dayHookup, spread);
}

function sumOfEffects(world: World, rig: Rig, on: 'hookup' | 'bites'): number {
  return (
    (world.months[rig.month]?.[on] ?? 0) +
    world.reaches[rig.reach][on] +
    (world.baits[rig.bait]?.[on] ?? 0) +
    halfOf(rig.windy) * world.wind[on] +
    halfOf(rig.braid) * world.line[on]
  );
}

/** ½ or −½: two levels lie as far above the middle as below it. */
export function halfOf(isFirst: boolean): number {
  return isFirst ? 0.5 : -0.5;
}

/** Mean of logistic(middle + spread·Z), Z standard normal: trapezoid rule, error below 1e-12. */
function meanLogistic(middle: number, spread: number): number {
  let sum = 0;
  let weights = 0;
  for (let z = -8; z <= 8; z += 0.125) {
    const weight = Math.exp((-z * z) / 2);
    sum += weight * logistic(middle + spread * z);
    weights += weight;
  }
  return sum / weights;
}
