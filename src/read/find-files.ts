import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, join, sep } from 'node:path';
import { LOG_FILES, type LogFile, TALLY_FILE } from '../base/files.ts';
import { UserError } from '../base/problem.ts';
import * as say from './messages-files.ts';

/** Rows mended by hand after an earlier import. */
export const SET_ASIDE_FILE = 'set-aside.csv';

/** What a table of a log folder is read as. */
export type TableFile = LogFile | typeof SET_ASIDE_FILE;

/** One file of a log folder. */
export interface FoundFile {
  /** The name on disk. */
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
}

/** Stems under which a file may stand, letters only. */
const STEMS: ReadonlyMap<string, TableFile> = new Map<string, TableFile>([
  ...LOG_FILES.map((file): [string, TableFile] => [bareStem(file), file]),
  ['trip', 'trips.csv'],
  ['soak', 'soaks.csv'],
  ['bite', 'bites.csv'],
  ['spool', 'spools.csv'],
  ['baitbuy', 'bait-buys.csv'],
  ['baitpurchases', 'bait-buys.csv'],
  [bareStem(TALLY_FILE), TALLY_FILE],
  ['tallies', TALLY_FILE],
  ['tallysheet', TALLY_FILE],
  [bareStem(SET_ASIDE_FILE), SET_ASIDE_FILE],
]);

/**
 * Finds the files of a log in its folder, in any letter case, with `.csv`, `.txt`, `.tsv` or
 * `.tab` at the end. Throws a `UserError` (exit code 3) for a missing folder, for two files that
 * could be the same table, for one that is no plain file or leads out of the folder, and where
 * trips or bites are missing.
 */
export async function findFiles(folder: string): Promise<ReadonlyMap<TableFile, FoundFile>> {
  const home = await realpath(folder).catch(() => {
    throw new UserError(say.noFolder(folder), 3);
  });
  const names = await readdir(home).catch((error: NodeJS.ErrnoException) => {
    const isFile = error.code === 'ENOTDIR';
    throw new UserError(isFile ? say.notAFolder(folder) : say.unreadable(folder, error), 3);
  });
  const found = new Map<TableFile, FoundFile>();
  for (const name of names.sort()) {
    const file = tableOf(name);
    if (file === null) continue;
    const twin = found.get(file);
    if (twin !== undefined) throw new UserError(say.twoFiles(file, twin.name, name), 3);
    found.set(file, await plainFile(home, name));
  }
  refuseMissing(folder, names, found);
  return found;
}

function tableOf(name: string): TableFile | null {
  // Spreadsheets leave lock files such as `.~lock.bites.csv#` and `~$bites.csv` beside the log.
  const match = /^([^.~][^.]*)\.(?:csv|txt|tsv|tab)$/i.exec(name);
  return match === null ? null : (STEMS.get(bareStem(match[1] ?? '')) ?? null);
}

function bareStem(name: string): string {
  return name
    .toLowerCase()
    .replace(/\.csv$/, '')
    .replace(/[\s_-]+/g, '');
}

async function plainFile(home: string, name: string): Promise<FoundFile> {
  const path = await realpath(join(home, name)).catch(() => {
    throw new UserError(say.deadLink(name), 3);
  });
  if (!path.startsWith(home.endsWith(sep) ? home : home + sep)) {
    throw new UserError(say.leadsOut(name), 3);
  }
  const found = await stat(path);
  // A pipe or a device would be waited on for ever.
  if (!found.isFile()) throw new UserError(say.notAFile(name, found.isDirectory()), 3);
  return { name, path, bytes: found.size };
}

function refuseMissing(
  folder: string,
  names: readonly string[],
  found: ReadonlyMap<TableFile, FoundFile>,
): void {
  const missing = found.has('trips.csv')
    ? found.has('bites.csv') || found.has(TALLY_FILE)
      ? null
      : 'bites.csv'
    : 'trips.csv';
  if (missing === null) return;
  const workbook = names.find((name) => /\.(?:xlsx?|xlsm|ods|numbers)$/i.test(name));
  const message =
    workbook === undefined
      ? say.missingFile({ folder: basename(folder) || folder, missing, names })
      : say.workbookOnly(workbook, missing);
  throw new UserError(message, 3);
}
