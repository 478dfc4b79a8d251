import { lstat, readdir, readFile, realpath, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve, sep } from 'node:path';
import { makeFolder } from '../base/make-folder.ts';
import { UserError } from '../base/problem.ts';
import { listWords } from '../base/words.ts';
import type { TextFile } from './new-files.ts';

/** Lies in every folder this tool writes; holds the list of what it wrote there. */
export const MARKER = '.linehours-wrote-this';
const MARKER_HEAD =
  'This folder is written whole by linehours and replaced whole by its next run.\n' +
  'Keep nothing of your own in it. The files it wrote:\n';

/**
 * Writes a folder whole: beside its place first, then swapped in, so that a run that is killed
 * leaves the old folder or the new one and never half of each.
 *
 * @param files names may hold forward slashes for folders within.
 * @throws UserError (exit 2) when the place is taken by a file, by a folder this tool did not
 *   write, or by one that someone has put something into since; then nothing is changed.
 */
export async function writeFolder(target: string, files: readonly TextFile[]): Promise<void> {
  try {
    const place = await realPlace(target);
    await putBackIfCut(place);
    await checkReplaceable(place, target);
    await clearLeftovers(place);
    const fresh = `${sideName(place, 'new')}-${process.pid}`;
    await fillFolder(fresh, files);
    await swapIn(fresh, place);
  } catch (error) {
    if (error instanceof UserError) throw error;
    throw new UserError(`The folder ${target} cannot be written: ${causeOf(error)}.`, 2);
  }
}

/** A link is followed, so that what it points to is replaced and not the link itself. */
async function realPlace(target: string): Promise<string> {
  const place = resolve(target);
  return realpath(place).catch(() => place);
}

async function checkReplaceable(place: string, asNamed: string): Promise<void> {
  const found = await lstat(place).catch(() => null);
  if (found === null) return;
  if (!found.isDirectory()) {
    throw new UserError(`${asNamed} is a file; name a folder to write into.`, 2);
  }
  const present = await filesWithin(place);
  if (present.length === 0) return;
  const marker = await readFile(join(place, MARKER), 'utf8').catch(() => null);
  if (marker === null) {
    throw new UserError(
      `${asNamed} is not empty and was not written by linehours, so it is left as it is. ` +
        'Name another folder, or empty this one first.',
      2,
    );
  }
  const ours = new Set([MARKER, ...marker.slice(MARKER_HEAD.length).split('\n')]);
  const strange = present.filter((name) => !ours.has(name));
  if (strange.length === 0) return;
  throw new UserError(
    `${asNamed} also holds ${listWords(strange, 3)}, which linehours did not write and would ` +
      'remove. Move that elsewhere, then run again.',
    2,
  );
}

/** Paths of all files within, with forward slashes, in order; folders themselves are not named. */
async function filesWithin(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .map((name) => name.split(sep).join('/'))
    .sort();
}

async function fillFolder(folder: string, files: readonly TextFile[]): Promise<void> {
  await makeFolder(folder);
  const names = files.map((file) => file.name).sort();
  const marker = { name: MARKER, text: MARKER_HEAD + names.map((name) => `${name}\n`).join('') };
  for (const { name, text } of [marker, ...files]) {
    await makeFolder(dirname(join(folder, name)));
    await writeFile(join(folder, name), text, { flush: true });
  }
}

async function swapIn(fresh: string, place: string): Promise<void> {
  const old = sideName(place, 'old');
  const hasOld = (await lstat(place).catch(() => null)) !== null;
  if (hasOld) await rename(place, old);
  await rename(fresh, place);
  await rm(old, { recursive: true, force: true });
}

/** A run cut off between the two renames left the old folder under its side name only. */
async function putBackIfCut(place: string): Promise<void> {
  const old = sideName(place, 'old');
  const [atPlace, aside] = await Promise.all(
    [place, old].map((path) => lstat(path).catch(() => null)),
  );
  if (aside == null || !(await wroteIt(old))) return;
  if (atPlace == null) await rename(old, place);
  else await rm(old, { recursive: true, force: true });
}

/** Half-written folders of runs that were killed; one of a run still at work is left alone. */
async function clearLeftovers(place: string): Promise<void> {
  const stem = `${basename(sideName(place, 'new'))}-`;
  const beside = await readdir(dirname(place)).catch(() => []);
  for (const name of beside.filter((entry) => entry.startsWith(stem))) {
    const path = join(dirname(place), name);
    const maker = Number(name.slice(stem.length));
    if (!isAtWork(maker) && (await wroteIt(path))) await rm(path, { recursive: true, force: true });
  }
}

async function wroteIt(folder: string): Promise<boolean> {
  return (await lstat(join(folder, MARKER)).catch(() => null)) !== null;
}

function isAtWork(processId: number): boolean {
  if (processId === process.pid) return false;
  try {
    return process.kill(processId, 0);
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

function sideName(place: string, side: 'new' | 'old'): string {
  return join(dirname(place), `.${basename(place)}.${side}`);
}

function causeOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
