import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Day, Rigged } from '../../data-samples/make/chances.ts';
import type { World } from '../../data-samples/make/world.ts';
import type { Reach } from '../../src/settings/settings.ts';

// A second reading of the sample logs that shares no code with the generator's writing or the
// tool's import: cells stay text, and joins are done the slow and plain way.

export const SAMPLES = resolve(import.meta.dirname, '../../data-samples');

export type Cells = Readonly<Record<string, string>>;

/** One bite with what it meets in the other files; `fight` is its number since the reel was filled. */
export interface JoinedBite {
  readonly cells: Cells;
  readonly trip: Cells;
  readonly soak: Cells | null;
  readonly spool: Cells;
  readonly hooked: boolean;
  readonly fight: number | null;
}

export interface ReadSeason {
  readonly world: World;
  readonly trips: readonly Cells[];
  readonly soaks: readonly Cells[];
  /** Without the row that was pasted twice. */
  readonly bites: readonly JoinedBite[];
  readonly spools: readonly Cells[];
  readonly baitBuys: readonly Cells[];
  readonly rowsPastedTwice: number;
}

export function readSample(folder: string): ReadSeason {
  const rows = (file: string): Cells[] =>
    parse(readFileSync(join(SAMPLES, folder, file), 'utf8'), { columns: true });
  const { world } = JSON.parse(readFileSync(join(SAMPLES, folder, 'truth.json'), 'utf8')) as {
    world: World;
  };
  const trips = rows('trips.csv');
  const soaks = rows('soaks.csv');
  const spools = rows('spools.csv');
  const written = rows('bites.csv');
  const ids = new Set<string>();
  const once = written.filter(({ bite_id = '' }) => !ids.has(bite_id) && ids.add(bite_id));
  const bites = joinBites(once, { trips, soaks, spools });
  const rowsPastedTwice = written.length - once.length;
  return { world, trips, soaks, bites, spools, baitBuys: rows('bait-buys.csv'), rowsPastedTwice };
}

function joinBites(
  bites: readonly Cells[],
  { trips, soaks, spools }: { trips: Cells[]; soaks: Cells[]; spools: Cells[] },
): JoinedBite[] {
  const fights = new Map<Cells, number>();
  return bites.map((cells) => {
    const trip = trips.find(({ trip_id }) => trip_id === cells.trip_id) as Cells;
    const mates = soaks.filter(
      ({ trip_id, position }) => trip_id === cells.trip_id && position === cells.position,
    );
    const soak = mates.findLast((candidate) => isOpen(candidate, cells.time ?? '')) ?? null;
    const spool = spoolOn(spools, cells.rod ?? '', trip.date ?? '');
    const hooked = cells.outcome !== 'missed';
    const fight = hooked ? (fights.get(spool) ?? 0) + 1 : null;
    if (fight !== null) fights.set(spool, fight);
    return { cells, trip, soak, spool, hooked, fight };
  });
}

/** The latest filling of a rod that a date knows. */
export function spoolOn(spools: readonly Cells[], rod: string, date: string): Cells {
  return spools.filter((spool) => spool.rod === rod && (spool.date ?? '') <= date).at(-1) as Cells;
}

/** Minutes after the midnight that begins the trip; times before noon on an evening trip are next day. */
export function minuteOfTrip(time: string, trip: Cells): number {
  const minute = clockMinute(time);
  return clockMinute(trip.lines_in ?? '') > 12 * 60 && minute < 12 * 60 ? minute + 1440 : minute;
}

export function clockMinute(time: string): number {
  const [hour = Number.NaN, minute = Number.NaN] = time.split(':').map(Number);
  return hour * 60 + minute;
}

function isOpen(soak: Cells, time: string): boolean {
  const [from, to, at] = [soak.time_in ?? '', soak.time_out ?? '', time].map(clockMinute) as [
    number,
    number,
    number,
  ];
  return from <= to ? from <= at && at <= to : at >= from || at <= to;
}

export function reachOf(position: string): Reach {
  if (position.startsWith('flat')) return 'flat';
  return position.replace(/^(port|starboard)-/, '') as Reach;
}

/** What the generator's formulas want to know of a trip. */
export function dayOf(world: World, trip: Cells): Day {
  const month = world.months.find(({ month }) => trip.date?.startsWith(month));
  return {
    month: month as World['months'][number],
    area: trip.area ?? '',
    weather: {
      wind_kn: Number(trip.wind_kn),
      current_kn: trip.current_kn === '' ? Number.NaN : Number(trip.current_kn),
    } as Day['weather'],
  };
}

/** The gear a bite met; null where a cell it needs was not written. */
export function gearOf({ cells, soak, spool }: JoinedBite): Rigged | null {
  if (soak === null) return null;
  return {
    reach: reachOf(cells.position ?? ''),
    bait: (cells.bait ?? '').replace('mackrel', 'mackerel'),
    hook_size: cells.hook_size ?? '',
    leader_lb: Number(soak.leader_lb),
    line_type: spool.line_type ?? '',
  };
}
