import type { Random } from '../../src/stats/random.ts';
import { biteRate, halfOf, hookupLogit, logistic } from './line-chances.ts';
import type { Rig, World } from './line-world.ts';

const POSITIONS = [
  ['port-short', 'short'],
  ['port-middle', 'middle'],
  ['port-long', 'long'],
  ['starboard-short', 'short'],
  ['starboard-middle', 'middle'],
  ['starboard-long', 'long'],
] as const;

/** One line of one trip: how it was rigged and what came of it. */
export interface DrawnLine {
  readonly position: string;
  readonly rig: Rig;
  readonly bites: number;
  readonly hooked: number;
  /** Hookups expected of its bites once the day and the moods are known. */
  readonly expectedHooked: number;
}

export interface DrawnTrip {
  readonly month: number;
  readonly windy: boolean;
  /** Hours every line was out: 5 to 9. */
  readonly hours: number;
  readonly lines: readonly DrawnLine[];
}

/** What one day does to all its lines, and to braid over mono. */
interface Day {
  /** Multiplies bites. */
  readonly bites: number;
  /** Added to the logit of a hookup. */
  readonly hookup: number;
  readonly lineBites: number;
  readonly lineHookup: number;
}

/** One trip of a world; `at` is its place in the season. */
export function drawTrip(world: World, at: number, random: Random): DrawnTrip {
  const { months } = world;
  const month = world.monthsDrawn
    ? random.integer(months.length)
    : Math.floor((at * months.length) / world.trips);
  const windy = random.uniform() < 0.5;
  const hours = 5 + random.integer(5);
  const day = drawDay(world, random);
  const baits = Object.keys(world.baits);
  const lines = POSITIONS.map(([position, reach]) => {
    const bait = baits[random.integer(baits.length)] ?? '';
    const fixed = { month, windy, reach, bait };
    const rig = { ...fixed, braid: random.uniform() < world.braidChance(fixed) };
    return { position, rig, ...drawBites(world, rig, { day, hours, random }) };
  });
  return { month, windy, hours, lines };
}

function drawDay(world: World, random: Random): Day {
  const { dayHookup, dayBites, lineByDay } = world;
  const own = random.normal();
  const line = {
    lineBites: lineByDay.bites * random.normal(),
    lineHookup: lineByDay.hookup * random.normal(),
  };
  // exp(±swing/2) of both lines has this mean, which is taken out so that `biteRate` is the mean.
  const swing = Math.exp(lineByDay.bites ** 2 / 8);
  if (dayBites.law === 'gamma') {
    const bites = random.gamma(dayBites.shape) / dayBites.shape / swing;
    return { bites, hookup: dayHookup * own, ...line };
  }
  const { spread, withHookup } = dayBites;
  const mood = random.normal();
  const bites = Math.exp(spread * mood - spread ** 2 / 2) / swing;
  const hookup = dayHookup * (withHookup * mood + Math.sqrt(1 - withHookup ** 2) * own);
  return { bites, hookup, ...line };
}

/** Bites of one line: so many bursts, each of one or more bites that share a mood. */
function drawBites(
  world: World,
  rig: Rig,
  { day, hours, random }: { readonly day: Day; readonly hours: number; readonly random: Random },
): Pick<DrawnLine, 'bites' | 'hooked' | 'expectedHooked'> {
  const { size, mood } = world.bursts;
  const side = halfOf(rig.braid);
  const mean = hours * biteRate(world, rig) * day.bites * Math.exp(side * day.lineBites);
  const logit = hookupLogit(world, rig) + day.hookup + side * day.lineHookup;
  let [bites, hooked, expectedHooked] = [0, 0, 0];
  for (let left = random.poisson(mean / size); left > 0; left--) {
    const count = 1 + random.poisson(size - 1);
    const chance = logistic(logit + (mood > 0 ? mood * random.normal() : 0));
    bites += count;
    hooked += random.binomial(count, chance);
    expectedHooked += count * chance;
  }
  return { bites, hooked, expectedHooked };
}

/** A whole season of trips. */
export function drawTrips(world: World, random: Random): DrawnTrip[] {
  return Array.from({ length: world.trips }, (_, at) => drawTrip(world, at, random));
}

/** Wind of a windy and of a calm day. */
export const WIND = { windy: { knots: 14, force: 4 }, calm: { knots: 8, force: 3 } };

/** The name of the trip at a place in the season. */
export const nameOf = (at: number): string => `T${at + 1}`;

/** Months one after the other from January 2026. */
export function monthOf({ month }: DrawnTrip): string {
  return `2026-${String(month + 1).padStart(2, '0')}`;
}
