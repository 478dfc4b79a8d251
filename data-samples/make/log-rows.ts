import type { Random } from '../../src/stats/random.ts';
import { chance, oneOf } from './draws.ts';
import type { Bite, FishedTrip, Soak } from './fish-trip.ts';
import type { Filling } from './reels.ts';
import type { Purchase } from './well.ts';
import type { World } from './world.ts';

/** One row as the crew wrote it: column name to text, absent or empty where nothing was written. */
export type Row = Record<string, string>;

/** The rows of a whole season by file, before anything went wrong with them. */
export interface LogRows {
  readonly trips: Row[];
  readonly soaks: Row[];
  readonly bites: Row[];
  readonly spools: Row[];
  readonly baitBuys: Row[];
}

/** Writes the season down the way a careful but human crew does. */
export function writtenRows(
  world: World,
  random: Random,
  {
    fished,
    fillings,
  }: { readonly fished: readonly FishedTrip[]; readonly fillings: readonly Filling[] },
): LogRows {
  const bites = fished.flatMap((day) =>
    day.bites.map((bite) => biteRow(world, random, { day, bite })),
  );
  return {
    trips: fished.map((day) => tripRow(world, random, day)),
    soaks: fished.flatMap((day) => day.soaks.map((soak) => soakRow(day.trip.id, soak))),
    bites: bites.map((row, index) => ({
      ...row,
      bite_id: `B${String(index + 1).padStart(4, '0')}`,
    })),
    spools: [...fillings].sort(byDateAndRod).map(spoolRow),
    baitBuys: fished.flatMap((day) => day.purchases.map(baitBuyRow)),
  };
}

const REMARKS = [
  'birds working at first light',
  'two came up together',
  'weed on the lines most of the day',
  'kites hard to hold in the gusts',
  'current ran against the wind',
  'quiet until the tide turned',
  'shark about, moved once',
];

const BITE_REMARKS: Readonly<Record<string, string>> = {
  missed: 'bait came back scaled',
  released: 'tagged',
  pulled: 'came off at the leader, third jump',
  line_broke: 'broke well above the leader, retied',
  leader_parted: 'bitten clean through',
  predator: 'only the head came up',
};
const NOTED = 0.06;

function tripRow(world: World, random: Random, day: FishedTrip): Row {
  const { trip } = day;
  const { weather } = trip;
  const { water_temp, current } = world.writing;
  const drift = chance(random, current);
  return {
    trip_id: trip.id,
    date: trip.date,
    lines_in: clock(day.linesIn),
    lines_out: clock(day.linesOut),
    lines_fished: String(trip.kiteLines + trip.flatLines),
    vessel: world.vessel,
    trip_kind: trip.kind,
    area: trip.area,
    lat: trip.lat.toFixed(3),
    lon: trip.lon.toFixed(3),
    depth_m: String(trip.depth_m),
    wind_kn: String(weather.wind_kn),
    wind_from_deg: String(weather.wind_from_deg),
    wave_m: weather.wave_m.toFixed(1),
    current_kn: drift ? weather.current_kn.toFixed(1) : '',
    current_to_deg: drift ? String(weather.current_to_deg) : '',
    water_temp_c: chance(random, water_temp) ? weather.water_temp_c.toFixed(1) : '',
    clarity: weather.clarity,
    sky: weather.sky,
    anglers: String(trip.anglers.length),
    notes: chance(random, 0.12) ? oneOf(random, REMARKS) : '',
  };
}

function soakRow(trip_id: string, soak: Soak): Row {
  return {
    trip_id,
    position: soak.position.name,
    bait: soak.bait,
    rod: soak.rod,
    hook_size: soak.hook_size,
    hook_model: soak.hook_model,
    leader_lb: String(soak.leader_lb),
    time_in: clock(soak.timeIn),
    time_out: clock(soak.timeOut),
    baits_used: String(soak.baitsUsed),
  };
}

function biteRow(
  world: World,
  random: Random,
  { day, bite }: { readonly day: FishedTrip; readonly bite: Bite },
): Row {
  const { writing } = world;
  const { fate } = bite;
  const written = (share: number, text: string) => (chance(random, share) ? text : '');
  const hooked = fate.outcome !== 'missed';
  return {
    trip_id: day.trip.id,
    time: written(writing.bite_time, clock(bite.minute)),
    outcome: fate.outcome,
    species: written(hooked ? 1 : writing.missed_species, fate.species),
    position: written(writing.position, bite.soak.position.name),
    bait: bite.bait,
    rod: bite.soak.rod,
    hook_size: bite.hook_size,
    lost_to: fate.lost_to ?? '',
    fight_min: hooked ? written(writing.fight, count(fate.fight_min)) : '',
    drop_back_s: written(writing.drop_back, count(fate.drop_back_s)),
    hooked_in: written(writing.hooked_in, fate.hooked_in ?? ''),
    release_condition: fate.release_condition ?? '',
    length_cm: written(writing.length, count(fate.length_cm)),
    weight_kg: fate.outcome === 'kept' ? (fate.weight_kg ?? 0).toFixed(1) : '',
    notes: chance(random, NOTED) ? (BITE_REMARKS[fate.lost_to ?? fate.outcome] ?? '') : '',
    angler: hooked ? oneOf(random, day.trip.anglers) : '',
  };
}

function spoolRow(filling: Filling): Row {
  return {
    rod: filling.rod,
    date: filling.date,
    line_type: filling.line_type,
    line_class_lb: String(filling.line_class_lb),
    cost: String(filling.cost),
    reason: filling.reason,
  };
}

function baitBuyRow(purchase: Purchase): Row {
  return {
    date: purchase.date,
    bait: purchase.bait,
    count: String(purchase.count),
    unit_cost: purchase.unit_cost.toFixed(2),
    died: String(purchase.died),
    ran_out: purchase.ran_out ? 'yes' : 'no',
    trip_id: purchase.trip_id,
    source: purchase.source,
  };
}

function byDateAndRod(a: Filling, b: Filling): number {
  return a.date + a.rod < b.date + b.rod ? -1 : 1;
}

function count(value: number | null): string {
  return value === null ? '' : String(value);
}

/** HH:MM; minutes past midnight begin again at 00:00. */
export function clock(minute: number): string {
  const hour = Math.floor(minute / 60) % 24;
  return `${String(hour).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}
