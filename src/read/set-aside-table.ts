import type { LogFile } from '../base/files.ts';
import { headerWords } from './header-words.ts';
import type { ReadAccount } from './season-log.ts';

/** The columns of `set-aside.csv` that say where a row stood and why it was set aside. */
export const SET_ASIDE_COLUMNS = ['file', 'line', 'column', 'code', 'reason', 'remedy'] as const;

/** The head of the column that holds lines which could not be split into cells. */
export const UNSPLIT_TEXT = 'unsplit text';

const OWN = new Set<string>(SET_ASIDE_COLUMNS);

/** The content of `set-aside.csv`: one row a row set aside, in full, under its own headers. */
export interface SetAsideTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * Lays out the rows set aside as a table that can be mended and dropped back into the log folder
 * as `set-aside.csv`: where each row stood and why, then its cells as they stood, under the headers
 * of its file. Files share a column where they share a header. The text is raw: the writer guards
 * cells that a spreadsheet would run, the reader takes the guard off.
 */
export function setAsideTable(account: ReadAccount): SetAsideTable {
  const columns: string[] = [...SET_ASIDE_COLUMNS];
  const places = new Map<string, number>();
  const rows = account.setAside.map((row) => {
    const cells = [row.file, String(row.line), row.column ?? '', row.code, row.reason, row.remedy];
    const names = columnNames(
      row.file,
      row.cells.map((cell) => cell.header),
    );
    row.cells.forEach(({ text }, index) => {
      const name = names[index] ?? '';
      let place = places.get(name);
      if (place === undefined) {
        place = columns.push(name) - 1;
        places.set(name, place);
      }
      cells[place] = text;
    });
    return cells;
  });
  return {
    columns,
    rows: rows.map((cells) => columns.map((_, index) => cells[index] ?? '')),
  };
}

/**
 * The heads under which a file's cells stand in `set-aside.csv`: its own headers, told apart where
 * they are empty, stand twice, or are heads of `set-aside.csv` itself.
 */
export function columnNames(file: LogFile, headers: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headers.map((header, index) => {
    const bare = header.trim();
    const own = OWN.has(headerWords(bare)) ? `${file}: ${bare}` : bare;
    const name = own === '' ? `cell ${index + 1}` : own;
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
}
