import { findFiles } from '../read/find-files.ts';
import { HeaderReader } from '../read/header-plan.ts';
import { openTable } from '../read/open-table.ts';
import type { Settings } from '../settings/settings.ts';

/** A cell of the log as it stands in its file, read or not. */
export interface RawCell {
  /** The file's own name on disk. */
  readonly file: string;
  /** The header as it stands; empty where the cell has none. */
  readonly header: string;
  /** The column it was understood as; null: none this tool knows. */
  readonly column: string | null;
  readonly text: string;
}

/**
 * Every filled cell of every file of a log, those of unknown columns, of rows set aside, of titles and
 * strange headers too: what nobody counts may still name somebody.
 */
export async function* rawCells(folder: string, settings: Settings): AsyncGenerator<RawCell> {
  const { files } = await findFiles(folder);
  for (const [file, found] of files) {
    const own = file === 'set-aside.csv' ? {} : (settings.headers[file] ?? {});
    const table = await openTable(found, new HeaderReader(file, { own, units: settings.units }));
    if (table === null) continue;
    const { columns } = table.plan;
    const loose = (text: string) => ({ file: found.name, header: '', column: null, text });
    for (const { cells } of table.strays) yield* cells.map(loose);
    yield* columns.filter(({ meaning }) => meaning === null).map(({ header }) => loose(header));
    for await (const batch of table.records(() => true)) {
      for (const { cells } of batch) {
        for (const [at, text] of cells.entries()) {
          if (text.trim() === '') continue;
          const { header = '', meaning = null } = columns[at] ?? {};
          yield { file: found.name, header, column: meaning?.spec.name ?? null, text };
        }
      }
    }
  }
}
