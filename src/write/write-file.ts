import { rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { UserError } from '../base/problem.ts';

/**
 * Writes one file whole: beside its place first, then renamed over it, so that a reader finds the
 * old text or the new and never half.
 * @throws UserError (exit 2) when the place cannot be written; then the old file stands.
 */
export async function writeWholeFile(path: string, text: string): Promise<void> {
  const place = resolve(path);
  const fresh = join(dirname(place), `.${basename(place)}.new-${process.pid}`);
  try {
    await writeFile(fresh, text, { flush: true });
    await rename(fresh, place);
  } catch (error) {
    await rm(fresh, { force: true });
    const cause = error instanceof Error ? error.message : String(error);
    throw new UserError(`The file ${path} cannot be written: ${cause}.`, 2);
  }
}
