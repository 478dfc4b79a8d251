import type { LogFile } from '../base/files.ts';
import type { SeasonLog } from '../read/season-log.ts';

/** An answer that the log gives for some of its rows only, or for none. */
export interface Unlock {
  /** What one would like to know. */
  readonly answer: string;
  readonly file: LogFile;
  readonly columns: readonly string[];
  /** Rows that have what the answer needs, and all rows that could. */
  readonly recorded: number;
  readonly rows: number;
}

interface Need {
  readonly answer: string;
  readonly file: LogFile;
  readonly columns: readonly string[];
  /** One entry per row that could have the cells; true where it does. */
  readonly has: (log: SeasonLog) => readonly boolean[];
}

const NEEDS: readonly Need[] = [
  {
    answer: 'bites, hookups and fish per line-hour by position, bait, line and hook',
    file: 'soaks.csv',
    columns: ['time_in', 'time_out'],
    has: ({ soaks }) =>
      (soaks ?? []).map(
        (row) => (row.time_in !== null && row.time_out !== null) || row.hours !== null,
      ),
  },
  {
    answer: 'which soak a bite came on, hour of day and light',
    file: 'bites.csv',
    columns: ['time'],
    has: ({ bites }) => bites.map((row) => row.time !== null),
  },
  {
    answer: 'rates by position, side and reach',
    file: 'bites.csv',
    columns: ['position'],
    has: ({ bites }) => bites.map((row) => row.position !== null),
  },
  {
    answer: 'rates by bait per line-hour',
    file: 'soaks.csv',
    columns: ['bait'],
    has: ({ soaks }) => (soaks ?? []).map((row) => row.bait !== null),
  },
  {
    answer: 'rates by hook size',
    file: 'soaks.csv',
    columns: ['hook_size'],
    has: ({ soaks }) => (soaks ?? []).map((row) => row.hook_size !== null),
  },
  {
    answer: 'caught and release rates by species',
    file: 'bites.csv',
    columns: ['species'],
    has: ({ bites }) => hooked(bites).map((row) => row.species !== null),
  },
  {
    answer: 'hours taken off for fish on the line, and how long fights last',
    file: 'bites.csv',
    columns: ['fight_min'],
    has: ({ bites }) => hooked(bites).map((row) => row.fight_min !== null),
  },
  {
    answer: 'how fish were lost: pulled hooks against broken line',
    file: 'bites.csv',
    columns: ['lost_to'],
    has: ({ bites }) =>
      bites.filter((row) => row.outcome === 'lost').map((row) => row.lost_to !== null),
  },
  {
    answer: 'where fish were hooked, by hook and by drop-back time',
    file: 'bites.csv',
    columns: ['hooked_in'],
    has: ({ bites }) => hooked(bites).map((row) => row.hooked_in !== null),
  },
  {
    answer: 'in what state fish went back',
    file: 'bites.csv',
    columns: ['release_condition'],
    has: ({ bites }) =>
      bites
        .filter((row) => row.outcome === 'released')
        .map((row) => row.release_condition !== null),
  },
  {
    answer: 'line type by date, line age and when to respool',
    file: 'soaks.csv',
    columns: ['rod'],
    has: ({ soaks, spools }) =>
      (soaks ?? []).map((row) => row.rod !== null && spools !== null && spools.length > 0),
  },
  {
    answer: 'what goes with wind',
    file: 'trips.csv',
    columns: ['wind_kn'],
    has: ({ trips }) => trips.map((row) => row.wind_kn !== null),
  },
  {
    answer: 'dawn, day, dusk and night',
    file: 'trips.csv',
    columns: ['lat', 'lon'],
    has: ({ trips }) => trips.map((row) => row.lat !== null && row.lon !== null),
  },
];

/** Columns outside the five tables that an answer hangs on: a file that is not there at all. */
const WHOLE_FILES: readonly (Omit<Need, 'has'> & { readonly key: 'spools' | 'baitBuys' })[] = [
  {
    answer: 'line age, wear and when to respool',
    file: 'spools.csv',
    columns: ['rod', 'date', 'line_type'],
    key: 'spools',
  },
  {
    answer: 'what bait costs a fish, and how many to load',
    file: 'bait-buys.csv',
    columns: ['date', 'bait', 'count'],
    key: 'baitBuys',
  },
];

/**
 * What the log cannot answer, or answers for part of its rows only, and the column that would
 * unlock it; what is missing most comes first. A fully recorded log gives an empty list.
 */
export function unlocksOf(log: SeasonLog): Unlock[] {
  const files = WHOLE_FILES.filter(({ key }) => log[key] === null).map(
    ({ answer, file, columns }): Unlock => ({ answer, file, columns, recorded: 0, rows: 0 }),
  );
  const cells = NEEDS.map(({ answer, file, columns, has }): Unlock => {
    const rows = has(log);
    return { answer, file, columns, recorded: rows.filter(Boolean).length, rows: rows.length };
  }).filter(({ file, recorded, rows }) => recorded < rows || isAbsent(log, file));
  return [...files, ...cells].sort((a, b) => share(a) - share(b));
}

function share({ recorded, rows }: Unlock): number {
  return rows === 0 ? 0 : recorded / rows;
}

function isAbsent(log: SeasonLog, file: LogFile): boolean {
  return file === 'soaks.csv' && log.soaks === null;
}

function hooked(bites: SeasonLog['bites']): SeasonLog['bites'] {
  return bites.filter((row) => row.outcome !== 'missed');
}
