import { Temporal } from 'temporal-polyfill';
import type { Random } from '../../src/stats/random.ts';
import { at } from './at.ts';
import { byShare, chance, weighted, whole } from './draws.ts';
import { invitedAnglers } from './people.ts';
import type { MonthTruth, World } from './world.ts';

/** A trip as it was meant to be, with the weather it met and the luck it had. Minutes count from midnight. */
export interface PlannedTrip {
  readonly id: string;
  readonly date: string;
  readonly weekend: boolean;
  /** No trip before it touched its date, so reels may have been filled that morning. */
  readonly firstOfDay: boolean;
  readonly month: MonthTruth;
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  readonly kiteLines: number;
  readonly flatLines: number;
  readonly anglers: readonly string[];
  readonly area: string;
  readonly lat: number;
  readonly lon: number;
  readonly depth_m: number;
  readonly weather: Weather;
  /** This day's own multiplier of the bite rate: the day effect. */
  readonly dayBites: number;
  readonly dayHookup: number;
  readonly bursts: readonly { readonly from: number; readonly to: number }[];
}

export interface Weather {
  readonly wind_kn: number;
  readonly wind_from_deg: number;
  readonly wave_m: number;
  readonly current_kn: number;
  readonly current_to_deg: number;
  readonly water_temp_c: number;
  readonly clarity: string;
  readonly sky: string;
}

const HOUR = 60;
const DOUBLE_DAY = 0.05;
const NIGHT_TRIP = 0.06;
const AFTERNOON_TRIP = 0.12;
/** A fight may go on after the lines should be out. */
const LONGEST_OVERRUN = 3 * HOUR;
/** Above this forecast the boat stays in. */
const MOST_WIND_KN = 26;

/** All trips of the season in order of time. */
export function planTrips(world: World, random: Random): PlannedTrip[] {
  const outings = world.months.flatMap((month) => outingsOf(month, random));
  const trips = outings.map((outing, index) => {
    const id = `${world.trip_prefix}-${String(index + 1).padStart(3, '0')}`;
    return planTrip(world, random, { id, ...outing });
  });
  return trips.map((trip, index) => ({ ...trip, firstOfDay: isFirst(trips[index - 1], trip) }));
}

type Outline = Omit<PlannedTrip, 'firstOfDay'>;

function isFirst(before: Outline | undefined, trip: Outline): boolean {
  if (before === undefined) return true;
  const lastMinute = before.end + LONGEST_OVERRUN;
  const last = Temporal.PlainDate.from(before.date).add({
    days: Math.floor(lastMinute / (24 * HOUR)),
  });
  return last.toString() < trip.date;
}

type Half = 'whole' | 'morning' | 'afternoon';
interface Outing {
  readonly month: MonthTruth;
  readonly day: Temporal.PlainDate;
  readonly half: Half;
}

/** Days of a month without repeats, weekends twice as likely; now and then two half-days in one. */
function outingsOf(month: MonthTruth, random: Random): Outing[] {
  const first = Temporal.PlainYearMonth.from(month.month);
  const weights: Record<string, number> = {};
  for (let day = 1; day <= first.daysInMonth; day++) {
    const date = first.toPlainDate({ day });
    weights[date.toString()] = date.dayOfWeek >= 6 ? 2 : 1;
  }
  const outings: Outing[] = [];
  while (outings.length < month.trips) {
    const chosen = weighted(random, weights) as string;
    delete weights[chosen];
    const day = Temporal.PlainDate.from(chosen);
    const twice = outings.length + 2 <= month.trips && chance(random, DOUBLE_DAY);
    const halves: readonly Half[] = twice ? ['morning', 'afternoon'] : ['whole'];
    for (const half of halves) outings.push({ month, day, half });
  }
  return outings.sort((a, b) => Temporal.PlainDate.compare(a.day, b.day));
}

function planTrip(
  world: World,
  random: Random,
  { id, month, day, half }: Outing & { readonly id: string },
): Outline {
  const kind = half === 'whole' ? byShare(random, world.trip_kinds) : 'charter';
  const truth = at(world.trip_kinds, kind);
  const night = half === 'whole' && kind !== 'tournament' && chance(random, NIGHT_TRIP);
  const start = startOf(random, { half, kind, night });
  const hours = half === 'whole' ? whole(random, truth.hours) + (night ? 1 : 0) : 4;
  const end = start + hours * HOUR + whole(random, [-15, 15]);
  const area = byShare(random, world.areas);
  const ground = at(world.areas, area);
  return {
    id,
    date: day.toString(),
    weekend: day.dayOfWeek >= 6,
    month,
    kind,
    start,
    end,
    kiteLines: whole(random, truth.kite_lines),
    flatLines: whole(random, truth.flat_lines),
    anglers: invitedAnglers(random, whole(random, truth.anglers)),
    area,
    lat: ground.lat + 0.02 * random.normal(),
    lon: ground.lon + 0.02 * random.normal(),
    depth_m: whole(random, ground.depth_m),
    weather: weatherOf(month, random),
    dayBites: random.gamma(world.bites.day_shape) / world.bites.day_shape,
    dayHookup: world.hookup.day_sd * random.normal(),
    bursts: burstsOf(world, random, { start, end }),
  };
}

function startOf(
  random: Random,
  { half, kind, night }: { half: Half; kind: string; night: boolean },
): number {
  if (half === 'morning') return 5 * HOUR + whole(random, [0, 20]);
  if (half === 'afternoon') return 13 * HOUR + whole(random, [0, 20]);
  if (night) return 18 * HOUR + whole(random, [30, 90]);
  if (kind === 'charter' && chance(random, AFTERNOON_TRIP))
    return 12 * HOUR + whole(random, [0, 45]);
  return 5 * HOUR + whole(random, [15, 120]);
}

function weatherOf(month: MonthTruth, random: Random): Weather {
  let wind = Number.POSITIVE_INFINITY;
  while (wind < 1 || wind > MOST_WIND_KN)
    wind = Math.round(month.mean_wind_kn + 4.2 * random.normal());
  return {
    wind_kn: wind,
    wind_from_deg: (360 + Math.round(month.wind_from_deg / 10 + 2.5 * random.normal()) * 10) % 360,
    wave_m: Math.max(0.2, 0.3 + 0.09 * wind + 0.2 * random.normal()),
    current_kn: 0.225 * random.gamma(4),
    current_to_deg: (360 + Math.round(27 + 4 * random.normal()) * 10) % 360,
    water_temp_c: month.water_temp_c + 0.5 * random.normal(),
    clarity: weighted(random, { blue: 0.6, green: 0.3, murky: 0.1 }) as string,
    sky: weighted(random, { clear: 0.5, cloud: 0.35, rain: 0.15 }) as string,
  };
}

function burstsOf(
  world: World,
  random: Random,
  { start, end }: { start: number; end: number },
): { from: number; to: number }[] {
  const { per_hour, minutes } = world.bites.bursts;
  const count = random.poisson((per_hour * (end - start)) / HOUR);
  return Array.from({ length: count }, () => {
    const from = whole(random, [start, end]);
    return { from, to: from + whole(random, minutes) };
  });
}
