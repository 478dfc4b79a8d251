import type { LogFile } from '../base/files.ts';
import type { Message } from './messages-cells.ts';
import type { SetAsideRow } from './season-log.ts';

/**
 * A set-aside row packed into one string, so that even a whole file of them fits into memory;
 * `cells` unpacks it.
 */
export class StoredRow implements SetAsideRow {
  readonly file: LogFile;
  readonly line: number;
  readonly column: string | null;
  readonly code: string;
  readonly reason: string;
  readonly remedy: string;
  readonly #headers: readonly string[];
  readonly #packed: string;

  constructor(row: {
    file: LogFile;
    line: number;
    column: string | null;
    message: Message;
    headers: readonly string[];
    cells: readonly string[];
  }) {
    this.file = row.file;
    this.line = row.line;
    this.column = row.column;
    this.code = row.message.code;
    this.reason = row.message.text;
    this.remedy = row.message.remedy;
    this.#headers = row.headers;
    this.#packed = JSON.stringify(row.cells);
  }

  /** Header and cell text as they stood; cells beyond the header are headed `cell 12` and so on. */
  get cells(): SetAsideRow['cells'] {
    const texts: readonly string[] = JSON.parse(this.#packed);
    return texts.map((text, index) => ({
      header: this.#headers[index] ?? `cell ${index + 1}`,
      text,
    }));
  }

  /** The row with its cells, as plain data. */
  toJSON(): SetAsideRow {
    const { file, line, column, code, reason, remedy, cells } = this;
    return { file, line, column, code, reason, remedy, cells };
  }
}
