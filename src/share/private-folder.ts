import { randomBytes } from 'node:crypto';
import { chmod, lstat, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as v from 'valibot';
import { makeFolder } from '../base/make-folder.ts';
import { UserError } from '../base/problem.ts';
import { EMPTY_LEDGER, type Ledger, LedgerSchema } from './release-ledger.ts';

/** Lies in the log's own folder; the only thing that is ever written there, and only by `share`. */
export const PRIVATE_FOLDER = '.linehours-private';

const KEY_BYTES = 32;
const OWNER_ONLY_FILE = 0o600;
const OWNER_ONLY_FOLDER = 0o700;

/** What stays with the owner: the key of the pseudonyms, and the account of what has left. */
export interface PrivateFolder {
  readonly key: Buffer;
  readonly ledger: Ledger;
  /** Writes key and ledger; until then nothing has been written. */
  keep(ledger: Ledger): Promise<void>;
  /** Undoes `keep`, for a package that could not be written after all. */
  putBack(): Promise<void>;
}

/**
 * Opens the private folder of a log; where there is none, a fresh key is made, which is not written
 * before something leaves.
 * @throws UserError (exit 2) for a key or ledger that cannot be read: both are needed to keep what
 *   left before and what leaves now from giving each other away.
 */
export async function openPrivateFolder(logFolder: string): Promise<PrivateFolder> {
  const folder = join(logFolder, PRIVATE_FOLDER);
  const found = await lstat(folder).catch(() => null);
  if (found !== null && !found.isDirectory()) {
    throw new UserError(`${folder} is no folder. Move it elsewhere, then run again.`, 2);
  }
  const keyText = await textOf(join(folder, 'key'));
  const ledgerText = await textOf(join(folder, 'ledger.json'));
  if (keyText === null && ledgerText !== null) {
    throw new UserError(
      `${folder} has a ledger but its key is gone. Put the key back from a copy; without it the ` +
        'packages that left earlier cannot be held against a new one.',
      2,
    );
  }
  if (ledgerText === null && keyText !== null) {
    throw new UserError(
      `${folder} has a key but its ledger is gone, so what left before cannot be held against what ` +
        'would leave now. Put ledger.json back from a copy; if nothing has ever left from this log, ' +
        'move the folder elsewhere, and a new key is made.',
      2,
    );
  }
  const key = keyText === null ? randomBytes(KEY_BYTES) : keyFrom(keyText, folder);
  const ledger = ledgerText === null ? EMPTY_LEDGER : ledgerFrom(ledgerText, folder);
  return {
    key,
    ledger,
    keep: (next) => keepPrivate(folder, key, next),
    putBack: () =>
      found === null
        ? rm(folder, { recursive: true, force: true })
        : keepPrivate(folder, key, ledger),
  };
}

async function keepPrivate(folder: string, key: Buffer, ledger: Ledger): Promise<void> {
  try {
    await makeFolder(folder, OWNER_ONLY_FOLDER);
    await chmod(folder, OWNER_ONLY_FOLDER);
    // Whoever keeps the log under version control would else publish the key with it.
    await writeOwnerFile(join(folder, '.gitignore'), '*\n');
    await writeOwnerFile(join(folder, 'key'), `${key.toString('hex')}\n`);
    await writeOwnerFile(join(folder, 'ledger.json'), `${JSON.stringify(ledger, null, 1)}\n`);
  } catch (error) {
    throw new UserError(
      `${folder} cannot be written: ${causeOf(error)}. Key and ledger must stay with the log: make its ` +
        'folder writable, then run again.',
      2,
    );
  }
}

/** Written beside its place and renamed over it, readable by its owner from the first byte on. */
async function writeOwnerFile(path: string, text: string): Promise<void> {
  const fresh = `${path}.new-${process.pid}`;
  try {
    await writeFile(fresh, text, { mode: OWNER_ONLY_FILE, flush: true });
    await chmod(fresh, OWNER_ONLY_FILE);
    await rename(fresh, path);
  } catch (error) {
    await rm(fresh, { force: true });
    throw error;
  }
}

async function textOf(path: string): Promise<string | null> {
  const found = await lstat(path).catch(() => null);
  if (found === null) return null;
  if (!found.isFile()) throw new UserError(`${path} is not a plain file. Move it elsewhere.`, 2);
  return readFile(path, 'utf8').catch((error: unknown) => {
    throw new UserError(`${path} cannot be read: ${causeOf(error)}.`, 2);
  });
}

function keyFrom(text: string, folder: string): Buffer {
  const hex = text.trim();
  if (new RegExp(`^[0-9a-f]{${2 * KEY_BYTES}}$`).test(hex)) return Buffer.from(hex, 'hex');
  throw new UserError(
    `The key in ${folder} is damaged: it should be ${2 * KEY_BYTES} hexadecimal digits. Put it ` +
      'back from a copy.',
    2,
  );
}

function ledgerFrom(text: string, folder: string): Ledger {
  const plain = parsedJson(text);
  const checked = v.safeParse(LedgerSchema, plain);
  if (checked.success) return checked.output;
  throw new UserError(
    `${join(folder, 'ledger.json')} is damaged, so what left before cannot be held against what ` +
      'would leave now. Put it back from a copy.',
    2,
  );
}

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function causeOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
