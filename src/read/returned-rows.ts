import { LOG_FILES, type LogFile, TALLY_FILE } from '../base/files.ts';
import { unguardCell } from '../base/format-csv-cell.ts';
import { isBlank } from './clean-text.ts';
import type { FoundFile } from './find-files.ts';
import { type HeaderPlan, HeaderReader } from './header-plan.ts';
import { openTable } from './open-table.ts';
import { columnNames, UNSPLIT_TEXT } from './set-aside-table.ts';

/** A row of `set-aside.csv` that was dropped back into the log folder. */
interface ReturnedRow {
  /** Line of the file it came from. */
  readonly line: number;
  /** The rule that set it aside. */
  readonly code: string;
  /** Line of `set-aside.csv` itself. */
  readonly ownLine: number;
  /** Its cells by the heads of `set-aside.csv`, guards taken off. */
  readonly cells: ReadonlyMap<string, string>;
}

/**
 * The rows of a `set-aside.csv` that stands in the log folder, mended by hand. A mended row takes
 * the place of the row it came from, which is still in its file; so it counts once. A row whose
 * place is not found (the file has changed since) is read beside the file, and refused where the
 * same row stands there already.
 */
export class ReturnedRows {
  readonly #rows = new Map<LogFile, ReturnedRow[]>();
  /** Lines of `set-aside.csv` that do not say where their row belongs. */
  readonly #astray: number[] = [];

  /** Reads `set-aside.csv`; without one there are no rows. Throws a `UserError` (exit code 3). */
  static async read(found: FoundFile | undefined): Promise<ReturnedRows> {
    const returned = new ReturnedRows();
    if (found === undefined) return returned;
    const table = await openTable(found, new HeaderReader('set-aside.csv'));
    if (table === null) return returned;
    const { columns, indexOf } = table.plan;
    const isRow = (cells: readonly string[]) => fileOf(cells[indexOf.get('file') ?? 0]) !== null;
    for await (const batch of table.records(isRow)) {
      for (const record of batch) {
        const textOf = (column: string) => (record.cells[indexOf.get(column) ?? -1] ?? '').trim();
        const file = fileOf(textOf('file'));
        const line = Number(textOf('line'));
        if (file === null || !/^\d+$/.test(textOf('line'))) {
          if (!record.cells.every(isBlank)) returned.#astray.push(record.line);
          continue;
        }
        const cells = new Map<string, string>();
        columns.forEach(({ header, meaning }, index) => {
          const text = unguardCell(record.cells[index] ?? '');
          if (meaning === null && text.trim() !== '') cells.set(header, text);
        });
        returned.#add(file, { line, code: textOf('code'), cells, ownLine: record.line });
      }
    }
    return returned;
  }

  /** The rows that came from one file, laid out under its header as it stands now. */
  of(plan: HeaderPlan): ReturnedToFile {
    const { file } = plan;
    const rows = file === 'set-aside.csv' ? [] : (this.#rows.get(file) ?? []);
    return new ReturnedToFile(plan, rows);
  }

  /** Lines of `set-aside.csv` that belong to no file of the log, `files` being those it has. */
  linesAstray(files: { has(file: LogFile): boolean }): number[] {
    const homeless = [...this.#rows].filter(([file]) => !files.has(file));
    const lines = homeless.flatMap(([, rows]) => rows.map((row) => row.ownLine));
    return [...this.#astray, ...lines].sort((a, b) => a - b);
  }

  #add(file: LogFile, row: ReturnedRow): void {
    const rows = this.#rows.get(file) ?? [];
    rows.push(row);
    this.#rows.set(file, rows);
  }
}

/** The returned rows of one file, each waiting for its place. */
export class ReturnedToFile {
  readonly #waiting = new Map<number, ReturnedRow[]>();
  readonly #names: readonly string[];

  constructor(plan: HeaderPlan, rows: readonly ReturnedRow[]) {
    const headers = plan.columns.map((column) => column.header);
    this.#names = plan.file === 'set-aside.csv' ? headers : columnNames(plan.file, headers);
    for (const row of rows) {
      const sameLine = this.#waiting.get(row.line);
      if (sameLine === undefined) this.#waiting.set(row.line, [row]);
      else sameLine.push(row);
    }
  }

  /**
   * The mended cells for a row that is set aside by the same rule on the same line, or null where
   * there are none or nothing was changed. Either way the returned row has found its place.
   */
  takeFor(line: number, code: string, texts: readonly string[]): string[] | null {
    const rows = this.#waiting.get(line);
    const at = rows?.findIndex((row) => row.code === code && this.#isFrom(row, texts)) ?? -1;
    const row = rows?.[at];
    if (rows === undefined || row === undefined) return null;
    rows.splice(at, 1);
    const mended = this.#laidOut(row);
    const isChanged = mended.some((text, index) => text.trim() !== (texts[index] ?? '').trim());
    return isChanged && mended.some((text) => text.trim() !== '') ? mended : null;
  }

  /** Rows that have not found their place. */
  *left(): Generator<{ line: number; cells: string[] }> {
    for (const rows of this.#waiting.values()) {
      for (const row of rows) {
        const cells = this.#laidOut(row);
        if (cells.some((text) => text.trim() !== '')) yield { line: row.line, cells };
      }
    }
  }

  /** Most of what a row says is left as it was when only its mistake is mended. */
  #isFrom(row: ReturnedRow, texts: readonly string[]): boolean {
    if (row.cells.has(UNSPLIT_TEXT))
      return row.cells.get(UNSPLIT_TEXT)?.trim() === texts[0]?.trim();
    const mended = this.#laidOut(row);
    const filled = texts.filter((text) => text.trim() !== '').length;
    const same = texts.filter((text, i) => text.trim() !== '' && text.trim() === mended[i]?.trim());
    return same.length * 3 >= filled;
  }

  #laidOut(row: ReturnedRow): string[] {
    const width = this.#names.length;
    const cells = this.#names.map((name) => row.cells.get(name) ?? '');
    // Cells beyond the header stand under `cell 12`; the row is sound once they are emptied.
    for (const [name, text] of row.cells) {
      const place = Number(/^cell (\d+)$/.exec(name)?.[1] ?? 0);
      if (place > width && place <= width + 1000) cells[place - 1] = text;
    }
    return Array.from(cells, (text) => text ?? '');
  }
}

function fileOf(text: string | undefined): LogFile | null {
  const name = (text ?? '').trim().toLowerCase();
  const files: readonly LogFile[] = [...LOG_FILES, TALLY_FILE];
  return files.find((file) => file === name) ?? null;
}
