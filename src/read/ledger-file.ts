import type { LogFile } from '../base/files.ts';
import type { Effect } from '../base/problem.ts';
import type { Ledger, Place } from './ledger.ts';
import type { Message } from './messages-cells.ts';
import type { DecimalMark } from './number-form.ts';
import type { Table } from './open-table.ts';
import type { PendingNote } from './row-cells.ts';
import type { ColumnAccount, FileAccount } from './season-log.ts';
import { lineEndName } from './split-lines.ts';
import { StoredRow } from './stored-row.ts';

/** The account of one file: what became of each of its rows. */
export class FileLedger {
  readonly file: LogFile;
  readonly #ledger: Ledger;
  readonly #table: Table;
  readonly #recorded: number[];
  readonly #repaired = new Set<number>();
  readonly #warned = new Set<number>();
  readonly #decimalMark: DecimalMark;
  #blank = 0;
  #used = 0;
  #aside = 0;
  #read = 0;

  constructor(
    ledger: Ledger,
    of: { readonly file: LogFile; readonly table: Table; readonly decimalMark: DecimalMark },
  ) {
    const { file, table, decimalMark } = of;
    this.file = file;
    this.#ledger = ledger;
    this.#table = table;
    this.#decimalMark = decimalMark;
    this.#recorded = table.plan.columns.map(() => 0);
    ledger.add(this);
  }

  /** The file's name on disk, which messages use. */
  get name(): string {
    return this.#table.name;
  }

  /** A row of empty cells was met, which is no row. */
  blank(): void {
    this.#blank++;
  }

  /** One more row was met. */
  read(): void {
    this.#read++;
  }

  /** The row is used; what was repaired in it or warned about is noted. */
  use(line: number, cells: readonly string[], notes: readonly PendingNote[]): void {
    this.#used++;
    const recorded = this.#recorded;
    const last = Math.min(cells.length, recorded.length);
    for (let i = 0; i < last; i++) {
      if ((cells[i] ?? '').trim() !== '') recorded[i] = (recorded[i] ?? 0) + 1;
    }
    for (const { column, received, note } of notes) {
      this.note(note.effect, { line, column, received }, note);
    }
  }

  /** The row is set aside, in full. */
  setAside(place: { line: number; column: string | null }, cells: readonly string[], found: Aside) {
    this.#aside++;
    const { line, column } = place;
    const { message, headers } = found;
    this.#ledger.setAside(
      new StoredRow({ file: this.file, line, column, message, headers, cells }),
    );
    this.#ledger.note(this.name, 'set-aside', { line, column, received: found.received }, message);
  }

  /** Notes a repair or a warning about a row that is used, or (line null) about the whole file. */
  note(effect: Exclude<Effect, 'set-aside'>, place: Place, message: Message): void {
    if (place.line !== null)
      (effect === 'repaired' ? this.#repaired : this.#warned).add(place.line);
    this.#ledger.note(this.name, effect, place, message);
  }

  /** Filled cells of a column in the rows used so far. */
  recorded(index: number): number {
    return this.#recorded[index] ?? 0;
  }

  /** The account as the reader of the log sees it. */
  close(): FileAccount {
    const table = this.#table;
    return {
      file: this.file,
      path: table.name,
      encoding: table.encoding,
      delimiter: table.delimiter,
      lineEnd: lineEndName(table.counts),
      decimalMark: this.#decimalMark,
      blankLines: table.counts.blank + this.#blank,
      rowsRead: this.#read,
      rowsUsed: this.#used,
      rowsRepaired: this.#repaired.size,
      rowsWarned: this.#warned.size,
      rowsSetAside: this.#aside,
      columns: this.#columns(),
    };
  }

  /** Empty columns without a header, which a spreadsheet leaves to the right, are no columns. */
  #columns(): ColumnAccount[] {
    return this.#table.plan.columns.flatMap(({ header, meaning }, index) => {
      const cellsRecorded = this.recorded(index);
      if (header === '' && cellsRecorded === 0) return [];
      const unit = meaning?.unit ?? null;
      const convertedFrom = unit === meaning?.spec.unit ? null : unit;
      return [{ header, column: meaning?.spec.name ?? null, convertedFrom, cellsRecorded }];
    });
  }
}

/** Why a row is set aside, and under which headers its cells stood. */
export interface Aside {
  readonly message: Message;
  readonly received: string;
  readonly headers: readonly string[];
}
