import { readFile, realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve, sep } from 'node:path';
import { UserError } from '../base/problem.ts';
import { isProportion } from '../estimate/proportion.ts';
import { MEASURE_NAMES } from '../tally/measures.ts';
import { DESCRIPTOR_FILE } from './descriptor.ts';
import { type PoolDescriptor, poolDescriptor, type TableResource } from './pool-descriptor.ts';
import * as say from './pool-messages.ts';
import { monthsCovered } from './pool-months.ts';
import { checkReferences, type SchemaRow, schemaRows } from './pool-table.ts';
import type { SharedRate } from './shared-rates.ts';
import { checksum } from './table-schema.ts';

/** A package that has passed every check, with what pooling needs of it. */
export interface PoolPackage {
  /** The name of its folder; it is whatever the reader called it. */
  readonly label: string;
  readonly folder: string;
  readonly about: PoolDescriptor['linehours'];
  /** Name or address of its licence; null where it has none. */
  readonly licence: string | null;
  readonly rates: readonly SharedRate[];
  /** Months that its rows cover, as `2025-03`. */
  readonly months: ReadonlySet<string>;
  /** Checksum of its main table: the same in two packages, they are one. */
  readonly fingerprint: string;
}

/** Sums of a season are a few kilobytes; this is a thousand seasons. */
const LARGEST_BYTES = 50_000_000;

/**
 * Reads a package and checks it: version, files and their checksums, every table against its schema,
 * and the rates against the rows.
 * @throws UserError (exit 3) with the package and what is wrong in it.
 */
export async function readPoolPackage(path: string): Promise<PoolPackage> {
  const folder = await folderOf(path);
  const descriptorPath = join(folder, DESCRIPTOR_FILE);
  const text = await textOf(descriptorPath, say.noPackage(path));
  const descriptor = poolDescriptor(text, descriptorPath);
  const { linehours: about, licenses } = descriptor;
  if (about.noise !== null) throw new UserError(say.noisyPackage(folder), 3);
  const tables = new Map<string, { resource: TableResource; rows: SchemaRow[] }>();
  for (const resource of descriptor.resources) {
    const content = await checkedText(folder, resource);
    if (resource.type !== 'table') continue;
    tables.set(resource.name, { resource, rows: schemaRows(content, resource) });
  }
  for (const { resource, rows } of tables.values()) {
    checkReferences(rows, resource, (name) => tables.get(name)?.rows);
  }
  const mainName = about.tier === 'cells' ? 'effort' : 'trips';
  const main = tables.get(mainName);
  if (main === undefined) throw new UserError(say.noTable(folder, mainName), 3);
  const rates = ratesOf(tables.get('rates')?.rows, folder);
  checkSums(rates, countsOf(about.tier, main.rows, tables.get('catch')?.rows ?? []), folder);
  checkCounts(about, main.rows, folder);
  return {
    label: basename(folder),
    folder,
    about,
    licence: licenses?.[0]?.name ?? licenses?.[0]?.path ?? null,
    rates,
    months: monthsCovered(main.rows),
    fingerprint: main.resource.hash,
  };
}

async function folderOf(path: string): Promise<string> {
  const place = resolve(path);
  const found = await stat(place).catch(() => null);
  if (found === null) throw new UserError(say.noPackage(path), 3);
  if (found.isDirectory()) return place;
  if (basename(place) === DESCRIPTOR_FILE) return dirname(place);
  throw new UserError(say.noPackage(path), 3);
}

async function textOf(path: string, missing: string): Promise<string> {
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile()) throw new UserError(missing, 3);
  if (found.size > LARGEST_BYTES) throw new UserError(say.tooLarge(path), 3);
  return readFile(path, 'utf8').catch((error: Error) => {
    throw new UserError(say.unreadable(path, error.message), 3);
  });
}

/** The text of a resource, read from within the folder only, as it was when it left. */
async function checkedText(
  folder: string,
  { path, hash }: { readonly path: string; readonly hash: string },
): Promise<string> {
  const home = await realpath(folder);
  const place = await realpath(join(home, path)).catch(() => null);
  if (place === null) throw new UserError(say.missingFile(folder, path), 3);
  if (!place.startsWith(home + sep)) throw new UserError(say.badPath(folder, path), 3);
  const text = await textOf(place, say.missingFile(folder, path));
  if (checksum(text) !== hash) throw new UserError(say.changedFile(folder, path), 3);
  return text;
}

function ratesOf(rows: readonly SchemaRow[] | undefined, folder: string): SharedRate[] {
  if (rows === undefined) throw new UserError(say.noTable(folder, 'rates'), 3);
  return rows.map((row): SharedRate => {
    const measure = MEASURE_NAMES.find((name) => name === row.measure);
    const [numerator, denominator, trips] = [row.numerator, row.denominator, row.trips].map(Number);
    const effect = row.design_effect == null ? null : Number(row.design_effect);
    const isSound =
      measure !== undefined &&
      [numerator, denominator, trips, effect ?? 1].every((value) => Number(value) >= 0) &&
      Number(denominator) > 0 &&
      (effect ?? 1) >= 1 &&
      (!isProportion(measure) || Number(numerator) <= Number(denominator));
    if (!isSound) throw new UserError(say.sumsDiffer(folder, `the figures of ${row.measure}`), 3);
    return {
      measure,
      numerator: numerator ?? 0,
      denominator: denominator ?? 0,
      trips: trips ?? 0,
      designEffect: effect,
    };
  });
}

/** Bites, hooked and released fish over all rows. */
interface Counts {
  readonly bites: number;
  readonly hooked: number;
  readonly released: number;
}

/** Trips one by one give their missed bites, and their fish in the table of fish. */
function countsOf(
  tier: PoolDescriptor['linehours']['tier'],
  rows: readonly SchemaRow[],
  fish: readonly SchemaRow[],
): Counts {
  const released = sumOf(tier === 'cells' ? rows : fish, 'released');
  if (tier === 'cells')
    return { bites: sumOf(rows, 'bites'), hooked: sumOf(rows, 'hooked'), released };
  const hooked = released + sumOf(fish, 'kept') + sumOf(fish, 'lost');
  return { bites: hooked + sumOf(rows, 'missed'), hooked, released };
}

function sumOf(rows: readonly SchemaRow[], name: string): number {
  return rows.reduce((total, row) => total + Number(row[name] ?? 0), 0);
}

/** The rates must be of the counts that the rows add up to. */
function checkSums(rates: readonly SharedRate[], counts: Counts, folder: string): void {
  const wanted = {
    hookup_rate: ['hooked', 'bites'],
    release_rate: ['released', 'hooked'],
  } as const;
  for (const rate of rates) {
    const names = wanted[rate.measure as keyof typeof wanted];
    if (names === undefined) continue;
    if (rate.numerator !== counts[names[0]] || rate.denominator !== counts[names[1]]) {
      throw new UserError(say.sumsDiffer(folder, `${names[0]} and ${names[1]}`), 3);
    }
  }
}

/** Trips and vessels that the descriptor tells must be those of the rows; no checksum covers it. */
function checkCounts(
  { tier, trips, vessels }: PoolDescriptor['linehours'],
  rows: readonly SchemaRow[],
  folder: string,
): void {
  const inRows =
    tier === 'cells'
      ? {
          trips: sumOf(rows, 'trips'),
          vessels: Math.max(...rows.map((row) => Number(row.vessels))),
        }
      : { trips: rows.length, vessels: new Set(rows.map((row) => row.vessel)).size };
  if (trips === inRows.trips && vessels.length >= inRows.vessels) return;
  throw new UserError(say.badCounts(folder), 3);
}
