import { mkdir, stat } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Makes a folder and those above it that are missing; one that is there is left as it is. Throws
 * what the system says. (Node's own recursive form never returns where a folder cannot hold others.)
 */
export async function makeFolder(folder: string, mode?: number): Promise<void> {
  const found = await stat(folder).catch(() => null);
  if (found?.isDirectory()) return;
  if (found === null && dirname(folder) !== folder) await makeFolder(dirname(folder), mode);
  try {
    await mkdir(folder, mode);
  } catch (error) {
    // Somebody else may have made it in the meantime.
    const now = await stat(folder).catch(() => null);
    if (!now?.isDirectory()) throw error;
  }
}
