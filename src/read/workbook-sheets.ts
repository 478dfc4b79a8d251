import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';
import { UserError } from '../base/problem.ts';
import { unreadable } from './messages-files.ts';
import * as say from './messages-workbook.ts';
import { type SheetCell, sheetCell } from './sheet-cell.ts';
import { reachesTooFar } from './sheet-extent.ts';
import { zipEntries } from './zip-entries.ts';
import { zipStored } from './zip-stored.ts';

/** A plain file inside the log folder. */
export interface FileOnDisk {
  /** The name on disk. */
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
}

/** A sheet of a workbook: every row from row 1 on, so that row n stands at index n - 1. */
export interface Sheet {
  readonly name: string;
  readonly rows: readonly (readonly SheetCell[])[];
}

/** What the worker sends: the sheets as the library gives them, or why it could not. */
interface Answer {
  readonly sheets?: readonly { sheet: string; data?: readonly (readonly unknown[])[] }[];
  readonly error?: string;
}

const MOST_BYTES = 50_000_000;
/** Far beyond any log; only files made to harm need as much. */
const MOST_HEAP_MB = 1000;
const MOST_MS = 60_000;
const OLD_OR_LOCKED = Buffer.from([0xd0, 0xcf, 0x11, 0xe0]);

/**
 * The library is loaded only here, so that a log in CSV pays nothing for it, and in a thread of its
 * own, for a small file can claim a sheet of billions of cells.
 */
const READ_IN_THREAD = `
const { parentPort, workerData } = require('node:worker_threads');
require(workerData.library)
  .default(Buffer.from(workerData.archive), { trim: false })
  .then((sheets) => parentPort.postMessage({ sheets }))
  .catch((error) => parentPort.postMessage({ error: String(error && error.message) }));
`;

/**
 * Reads the sheets of an `.xlsx` workbook in bounded memory and time; of a formula its stored value
 * is read. Throws a `UserError` (exit code 3) for a file that is no sound workbook, is locked, or
 * would grow beyond what a log needs.
 */
export async function workbookSheets(found: FileOnDisk): Promise<Sheet[]> {
  const { name } = found;
  if (found.bytes > MOST_BYTES) {
    throw new UserError(say.workbookTooLarge(name, found.bytes, MOST_BYTES), 3);
  }
  const bytes = await readFile(found.path).catch((error: Error) => {
    throw new UserError(unreadable(name, error), 3);
  });
  if (bytes.subarray(0, 4).equals(OLD_OR_LOCKED)) throw new UserError(say.workbookLocked(name), 3);
  const entries = zipEntries(bytes, name, (entry) => /\.xml(?:\.rels)?$/.test(entry));
  if (!entries.some((entry) => entry.name === 'xl/workbook.xml')) {
    throw new UserError(say.workbookBroken(name), 3);
  }
  if (entries.some((entry) => reachesTooFar(entry.content))) {
    throw new UserError(say.workbookTooMuch(name), 3);
  }
  const { sheets, error } = await readInThread(zipStored(entries), name);
  if (sheets === undefined) throw new UserError(say.workbookBroken(name, error), 3);
  return sheets.map(({ sheet, data = [] }) => ({
    name: sheet,
    rows: data.map((row) => row.map(sheetCell)),
  }));
}

function readInThread(archive: Buffer, name: string): Promise<Answer> {
  const library = createRequire(import.meta.url).resolve('read-excel-file/node');
  const worker = new Worker(READ_IN_THREAD, {
    eval: true,
    workerData: { library, archive },
    resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MB },
  });
  const tooMuch = new UserError(say.workbookTooMuch(name), 3);
  return new Promise<Answer>((resolve, reject) => {
    const timer = setTimeout(() => reject(tooMuch), MOST_MS);
    worker.once('message', resolve);
    worker.once('error', () => reject(tooMuch));
    worker.once('exit', () => {
      clearTimeout(timer);
      reject(tooMuch);
    });
  }).finally(() => worker.terminate());
}
