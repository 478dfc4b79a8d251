import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { readSeason } from '../../src/read/read-season.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';
import { type CleanRow, type CleanSeason, cleanSeason } from './clean-season.ts';
import { type WildStyle, wildFile, wildStyle } from './wild-styles.ts';

const RUNS = process.env.CI === 'true' ? 2000 : 200;
const SEED = Number(process.env.FAST_CHECK_SEED ?? fc.sample(fc.nat(), 1)[0]);

const folder = mkdtempSync(join(tmpdir(), 'linehours-round-trip-'));
afterAll(() => rmSync(folder, { recursive: true }));

const TABLES = {
  trips: 'trips.csv',
  soaks: 'soaks.csv',
  bites: 'bites.csv',
  spools: 'spools.csv',
  baitBuys: 'bait-buys.csv',
} as const;
type TableName = keyof typeof TABLES;
const NAMES = Object.keys(TABLES) as TableName[];

/** Columns of a table, for tables that may have no rows. */
const LEAST_COLUMNS: Readonly<Record<TableName, readonly string[]>> = {
  trips: [],
  soaks: ['trip_id', 'position'],
  bites: ['trip_id', 'outcome'],
  spools: ['rod', 'date', 'line_type'],
  baitBuys: ['date', 'bait', 'count'],
};

describe('a clean season, however it is written down', () => {
  test(`comes back the same (seed ${SEED}, ${RUNS} runs)`, async () => {
    const styles = fc.record(Object.fromEntries(NAMES.map((name) => [name, wildStyle])));
    await fc.assert(
      fc.asyncProperty(cleanSeason, styles, async (season, style) => {
        write(season, style as Record<TableName, WildStyle>);
        const log = await readSeason(folder);
        for (const name of NAMES) {
          expect(inOrder(read(log, name), name), name).toEqual(
            inOrder(season[name].map(plainRow), name),
          );
        }
      }),
      { numRuns: RUNS, seed: SEED },
    );
  }, 300_000);
});

function write(season: CleanSeason, styles: Record<TableName, WildStyle>): void {
  for (const name of NAMES) {
    const [first] = season[name];
    const columns = first === undefined ? LEAST_COLUMNS[name] : Object.keys(first);
    writeFileSync(join(folder, TABLES[name]), wildFile(season[name], columns, styles[name]));
  }
}

type PlainRow = Record<string, string | number | boolean | null>;

/** What the reader should make of a clean row. */
function plainRow(row: CleanRow): PlainRow {
  return Object.fromEntries(
    Object.entries(row).map(([column, cell]) => {
      if (cell.kind === 'empty') return [column, null];
      if (column === 'ran_out') return [column, cell.value === 'yes'];
      return [column, typeof cell.value === 'number' ? rounded(cell.value) : cell.value];
    }),
  );
}

/** The rows as read, without what the clean season does not have. */
function read(log: SeasonLog, name: TableName): PlainRow[] {
  return (log[name] ?? []).map((row) => {
    const { line: _, ...cells } = row;
    return Object.fromEntries(
      Object.entries(cells).map(([column, value]) => [
        column,
        typeof value === 'number' ? rounded(value) : value,
      ]),
    );
  });
}

/** Columns that every row read has, whether or not the clean season wrote them. */
const DEFAULTS: Readonly<Record<string, PlainRow>> = {
  trips: {
    hours_fished: null,
    trip_kind: null,
    wave_m: null,
    current_kn: null,
    current_to_deg: null,
    clarity: null,
    sky: null,
  },
  soaks: { hook_model: null, hours: null, baits_used: 1 },
  bites: {
    count: 1,
    lost_to: null,
    drop_back_s: null,
    hooked_in: null,
    release_condition: null,
    length_cm: null,
    angler: null,
  },
  spools: { reason: null },
  baitBuys: { died: null, trip_id: null, source: null },
};

function inOrder(rows: readonly PlainRow[], name: TableName): PlainRow[] {
  const whole = rows.map((row) => ({ ...DEFAULTS[name], ...row }));
  return whole.sort((a, b) => (String(a.notes) < String(b.notes) ? -1 : 1));
}

/** Figures that went through another unit come back to ten digits. */
function rounded(value: number): number {
  return Number(value.toPrecision(10));
}
