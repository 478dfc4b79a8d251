import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, join, sep } from 'node:path';
import { LOG_FILES, type LogFile, TALLY_FILE } from '../base/files.ts';
import { UserError } from '../base/problem.ts';
import type { Message } from './messages-cells.ts';
import * as say from './messages-files.ts';
import { noTableSheet, sheetNotRead, workbookNotRead } from './messages-workbook.ts';
import { type FileOnDisk, type Sheet, workbookSheets } from './workbook-sheets.ts';

/** Rows mended by hand after an earlier import. */
export const SET_ASIDE_FILE = 'set-aside.csv';

/** What a table of a log folder is read as. */
export type TableFile = LogFile | typeof SET_ASIDE_FILE;

/** One table of a log folder: a file, or (with `rows`) a sheet of a workbook. */
export interface FoundFile extends FileOnDisk {
  readonly rows?: Sheet['rows'];
}

/** A sheet or a workbook in the folder that is no part of the log. */
export interface Unread {
  /** The workbook's name on disk. */
  readonly name: string;
  /** The sheet's name; empty where the whole workbook is meant. */
  readonly sheet: string;
  readonly message: Message;
}

/** The tables of a log folder, and what stands beside them unread. */
export interface FoundLog {
  readonly files: ReadonlyMap<TableFile, FoundFile>;
  readonly unread: readonly Unread[];
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

/** Workbooks; not the lock files such as `~$season.xlsx` beside open ones. */
const WORKBOOK = /(?<=^[^.~].*)\.xlsx$/i;

/**
 * Finds the tables of a log in its folder: files in any letter case, with `.csv`, `.txt`, `.tsv` or
 * `.tab` at the end, and the sheets of `.xlsx` workbooks that are named like tables. Throws a
 * `UserError` (exit code 3) for a missing folder, for two that could be the same table, for one that
 * is no plain file or leads out of the folder, and where trips or bites are missing.
 */
export async function findFiles(folder: string): Promise<FoundLog> {
  const home = await realpath(folder).catch(() => {
    throw new UserError(say.noFolder(folder), 3);
  });
  const names = await readdir(home).catch((error: NodeJS.ErrnoException) => {
    const isFile = error.code === 'ENOTDIR';
    throw new UserError(isFile ? say.notAFolder(folder) : say.unreadable(folder, error), 3);
  });
  const found = new Map<TableFile, FoundFile>();
  const add = (file: TableFile, table: FoundFile) => {
    const twin = found.get(file);
    if (twin !== undefined) throw new UserError(say.twoFiles(file, twin.name, table.name), 3);
    found.set(file, table);
  };
  for (const name of names.sort()) {
    const file = tableOf(name);
    if (file !== null) add(file, await plainFile(home, name));
  }
  const isWhole = missingTable(found) === null;
  const unread: Unread[] = [];
  for (const name of names.filter((entry) => WORKBOOK.test(entry))) {
    unread.push(...(await addSheets({ home, name, isWhole }, add)));
  }
  refuseMissing({ folder, names, unread }, found);
  return { files: found, unread };
}

/**
 * Adds the sheets of one workbook that are tables. A workbook named like a table needs no sheet so
 * named: its first one is meant. Beside a whole log in CSV, any other workbook may be unreadable.
 */
async function addSheets(
  { home, name, isWhole }: { home: string; name: string; isWhole: boolean },
  add: (file: TableFile, table: FoundFile) => void,
): Promise<Unread[]> {
  const own = STEMS.get(bareStem(name.replace(WORKBOOK, '')));
  let onDisk: FileOnDisk;
  let sheets: Sheet[];
  try {
    onDisk = await plainFile(home, name);
    sheets = await workbookSheets(onDisk);
  } catch (error) {
    if (!(error instanceof UserError) || !isWhole || own !== undefined) throw error;
    return [{ name, sheet: '', message: workbookNotRead(error.message) }];
  }
  const named: (TableFile | undefined)[] = sheets.map((sheet) => STEMS.get(bareStem(sheet.name)));
  if (own !== undefined && !named.some((file) => file !== undefined)) named[0] = own;
  const unread: Unread[] = [];
  sheets.forEach((sheet, index) => {
    const file = named[index];
    if (file === undefined) {
      unread.push({ name, sheet: sheet.name, message: sheetNotRead(sheet.name) });
    } else add(file, { ...onDisk, name: `${name}, sheet ${sheet.name}`, rows: sheet.rows });
  });
  return unread;
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

/** The table that a log cannot do without and that is not there, or null. */
function missingTable(found: ReadonlyMap<TableFile, FoundFile>): LogFile | null {
  if (!found.has('trips.csv')) return 'trips.csv';
  return found.has('bites.csv') || found.has(TALLY_FILE) ? null : 'bites.csv';
}

function refuseMissing(
  at: { folder: string; names: readonly string[]; unread: readonly Unread[] },
  found: ReadonlyMap<TableFile, FoundFile>,
): void {
  const missing = missingTable(found);
  if (missing === null) return;
  const { folder, names, unread } = at;
  const [first] = unread;
  if (first !== undefined) {
    const sheets = unread.filter(({ name }) => name === first.name).map(({ sheet }) => sheet);
    throw new UserError(noTableSheet({ name: first.name, missing, sheets }), 3);
  }
  const workbook = names.find((name) => /\.(?:xls|xlsm|xlsb|ods|numbers)$/i.test(name));
  const message =
    workbook === undefined
      ? say.missingFile({ folder: basename(folder) || folder, missing, names })
      : say.workbookOnly(workbook, missing);
  throw new UserError(message, 3);
}
