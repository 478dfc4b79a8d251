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
  const taken = await writeNewFiles(dir, files);
  if (taken.length > 0) {
    throw new UserError(
      `${dir} already holds ${taken.join(', ')}; nothing was written. Name a new folder.`,
      2,
    );
  }
  const names = files.map((file) => file.name);
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
