import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** One trip of a made-up fleet, from which files are written and sums are made without the project. */
export interface FleetTrip {
  readonly id: string;
  readonly vessel: string;
  readonly date: string;
  readonly lat: number;
  readonly lon: number;
  /** Line-hours of its only soak. */
  readonly hours: number;
  /** One a bite: species, or none for a missed one, and what became of it. */
  readonly bites: readonly (readonly [species: string, outcome: string])[];
  readonly notes?: string;
}

/** Words that stand in one text column each and nowhere else; none may ever leave. */
export const CANARIES = {
  season: 'Zqseason Umbrafell',
  vessels: ['Zqvessel Aaldorn', 'Zqvessel Beornic', 'Zqvessel Cathmor'],
  tripPrefix: 'ZQTRIP',
  biteId: 'ZQBITE',
  area: 'Zqground Wrackstone',
  kind: 'zqkind',
  clarity: 'zqclarity',
  sky: 'zqsky',
  notes: 'zqnote met Hildegrund at the fuel dock',
  rod: 'ZQROD',
  bait: 'zqbait',
  model: 'zqmodel',
  angler: 'Zqclient Ørnulf Tveitane',
  biteNote: 'zqbitenote on the blue lure',
  reason: 'zqreason',
  source: 'Zqseller Marrowby',
  captain: 'Zqcaptain Ingefær',
  phone: '0612345678',
  title: 'Zqtitle of the Wavewright company',
  fish: 'zqfish',
} as const;

const pad = (at: number) => String(at).padStart(3, '0');

/** Three vessels over four months on both sides of 55° E, some months with a boat or a trip too few. */
export function fleetTrips(): FleetTrip[] {
  const trips: FleetTrip[] = [];
  const add = (vessel: number, month: number, day: number, place: readonly [number, number]) => {
    const at = trips.length;
    const species = ['sailfish', 'wahoo', CANARIES.fish];
    trips.push({
      id: `${CANARIES.tripPrefix}-${pad(at)}`,
      vessel: CANARIES.vessels[vessel] ?? '',
      date: `2025-0${month}-${String(day).padStart(2, '0')}`,
      lat: -(place[0] + ((at * 37) % 90) / 100 + 0.013),
      lon: place[1] + ((at * 53) % 90) / 100 + 0.017,
      hours: 4 + ((at * 7) % 9) / 4,
      bites: Array.from({ length: (at * 5) % 7 }, (_, n) => {
        const outcome = ['missed', 'released', 'lost', 'kept'][(at + n) % 4] ?? 'missed';
        return [species[(at + n) % 3] ?? 'wahoo', outcome] as const;
      }),
    });
  };
  for (const month of [1, 2, 3, 4]) {
    for (const vessel of [0, 1, 2]) {
      for (const day of [3, 9, 15, 24]) add(vessel, month, day, [12, 54]);
    }
  }
  // February: one boat alone in a cell of its own, which takes the 5 degree square to hide.
  add(0, 2, 11, [13, 53]);
  // March: two boats in another square, which must be left out.
  add(0, 3, 12, [12, 56]);
  add(1, 3, 12, [12, 56]);
  // April: one trip in yet another square.
  add(2, 4, 18, [16, 57]);
  return trips;
}

const quoted = (cell: string) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
const csv = (rows: readonly (readonly (string | number)[])[]) =>
  rows.map((row) => row.map((cell) => quoted(String(cell))).join(',')).join('\n');

/** The files of a log that holds these trips, with a canary in every column of text. */
export function fleetFiles(trips: readonly FleetTrip[]): Record<string, string> {
  const clock = (minute: number) =>
    `${pad(Math.floor(minute / 60)).slice(1)}:${String(minute % 60).padStart(2, '0')}`;
  return {
    'trips.csv': csv([
      [CANARIES.title],
      [
        ...[
          'trip_id',
          'date',
          'lines_in',
          'lines_out',
          'vessel',
          'trip_kind',
          'area',
          'lat',
          'lon',
        ],
        ...['clarity', 'sky', 'notes', 'captain', 'phone'],
      ],
      ...trips.map((trip, at) => [
        ...[trip.id, trip.date, clock(371 + at), clock(371 + at + Math.round(60 * trip.hours))],
        ...[trip.vessel, CANARIES.kind, CANARIES.area, trip.lat.toFixed(3), trip.lon.toFixed(3)],
        ...[
          CANARIES.clarity,
          CANARIES.sky,
          trip.notes ?? CANARIES.notes,
          CANARIES.captain,
          CANARIES.phone,
        ],
      ]),
    ]),
    'soaks.csv': csv([
      ['trip_id', 'position', 'bait', 'rod', 'hook_model', 'hours', 'notes'],
      ...trips.map((trip) => [
        ...[trip.id, 'port-long', CANARIES.bait, CANARIES.rod, CANARIES.model],
        ...[trip.hours, CANARIES.notes],
      ]),
    ]),
    'bites.csv': csv([
      ['trip_id', 'bite_id', 'time', 'position', 'outcome', 'species', 'angler', 'rod', 'notes'],
      ...trips.flatMap((trip, at) =>
        trip.bites.map(([species, outcome], n) => [
          ...[
            trip.id,
            `${CANARIES.biteId}${pad(at)}${n}`,
            clock(400 + at + n),
            'port-long',
            outcome,
          ],
          ...[
            outcome === 'missed' ? '' : species,
            CANARIES.angler,
            CANARIES.rod,
            CANARIES.biteNote,
          ],
        ]),
      ),
    ]),
    'spools.csv': csv([
      ['rod', 'date', 'line_type', 'reason'],
      [CANARIES.rod, '2025-01-02', 'mono', CANARIES.reason],
    ]),
    'bait-buys.csv': csv([
      ['date', 'bait', 'count', 'source'],
      ['2025-01-03', CANARIES.bait, 12, CANARIES.source],
    ]),
    'season.yaml':
      `name: ${CANARIES.season}\ntime_zone: Indian/Mauritius\n` +
      'species:\n  sailfish: {code: SFA}\n  wahoo: {code: WAH}\n',
  };
}

/** A folder with these files, its own name a canary too. */
export function logFolder(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'Zqfolder-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}
