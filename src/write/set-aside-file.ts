import { access, readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { ReadAccount } from '../read/season-log.ts';
import { setAsideTable } from '../read/set-aside-table.ts';
import { csvText } from './csv.ts';
import { writeNewFiles } from './new-files.ts';

/**
 * Writes the rows set aside into `set-aside.csv` of a folder, or `set-aside-2.csv` and so on where
 * a file of that name holds something else, such as rows that are being mended.
 * @returns the path written, or that of a file that says the same already; null for no rows.
 */
export async function writeSetAside(folder: string, account: ReadAccount): Promise<string | null> {
  if (account.setAside.length === 0) return null;
  const { columns, rows } = setAsideTable(account);
  const text = csvText(columns, rows);
  for (let attempt = 1; ; attempt += 1) {
    const name = attempt === 1 ? 'set-aside.csv' : `set-aside-${attempt}.csv`;
    const path = join(resolve(folder), name);
    const isThere = await access(path).then(
      () => true,
      () => false,
    );
    if (isThere && (await readFile(path, 'utf8')) === text) return path;
    if (!isThere && (await writeNewFiles(folder, [{ name, text }])).length === 0) return path;
  }
}
