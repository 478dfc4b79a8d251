import { readdir, stat } from 'node:fs/promises';
import { parse } from 'node:path';
import { UserError } from '../base/problem.ts';
import { writeNewFiles } from '../write/new-files.ts';
import { starterFiles } from '../write/starter-log.tsx';
import { documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';

/** `init`: an empty log folder to begin a season with. Existing files are never touched. */
export async function initCommand(
  dir: string,
  given: { readonly json?: boolean },
  effects: Effects,
): Promise<ExitCode> {
  const files = starterFiles();
  const names = files.map((file) => file.name);
  const present = await namesIn(dir);
  const stems = new Set(names.map(stemOf));
  // A Trips.xlsx beside a trips.csv would be two tables of trips.
  const alike = present.filter((name) => stems.has(stemOf(name)));
  const taken = alike.length > 0 ? alike : await writeNewFiles(dir, files);
  if (taken.length > 0) {
    throw new UserError(
      `${dir} already holds ${taken.join(', ')}; nothing was written. Name a new folder.`,
      2,
    );
  }
  if (given.json) {
    effects.out(documentText({ schema: 'linehours/init@1', folder: dir, written: names }));
    return 0;
  }
  effects.out(
    `${dir} is ready: ${names.join(', ')}.\n` +
      'Print log-sheet.html for the boat, fill the CSV files in, then run\n' +
      `  linehours check ${dir}\n`,
  );
  return 0;
}

/** What is in the folder; nothing where there is none yet. */
async function namesIn(dir: string): Promise<string[]> {
  const found = await stat(dir).catch(() => null);
  if (found?.isFile()) {
    throw new UserError(`${dir} is a file; nothing was written. Name a new folder.`, 2);
  }
  return found === null ? [] : (await readdir(dir).catch(() => [])).sort();
}

function stemOf(name: string): string {
  return parse(name).name.toLowerCase();
}
