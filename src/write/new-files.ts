import { readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { makeFolder } from '../base/make-folder.ts';
import { UserError } from '../base/problem.ts';

/** A file by its name within a folder, and its whole text. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/**
 * Writes files into a folder, made if need be, only if none of their names is taken.
 * @returns the names that are taken; then nothing was written.
 * @throws UserError (exit 2) when the folder cannot be made or read.
 */
export async function writeNewFiles(
  folder: string,
  files: readonly TextFile[],
): Promise<readonly string[]> {
  try {
    await makeFolder(folder);
    const present = new Set(await readdir(folder));
    const taken = files.map((file) => file.name).filter((name) => present.has(name));
    if (taken.length > 0) return taken;
    for (const { name, text } of files) await writeFile(join(folder, name), text, { flag: 'wx' });
    return [];
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    throw new UserError(`The folder ${folder} cannot be written: ${cause}.`, 2);
  }
}
