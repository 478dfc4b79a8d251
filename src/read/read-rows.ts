import { isBlank } from './clean-text.ts';
import type { TextRecord } from './csv-records.ts';
import type { FileLedger } from './ledger-file.ts';
import * as say from './messages-rows.ts';
import { type Table, withoutBlankEnd } from './open-table.ts';
import type { ReturnedToFile } from './returned-rows.ts';
import type { PendingAside, RowCells } from './row-cells.ts';
import { isRowOf } from './row-shape.ts';
import type { Placed } from './rows.ts';
import { UNSPLIT_TEXT } from './set-aside-table.ts';
import { strayRowTest } from './stray-rows.ts';

/** How the rows of one file are read. */
export interface RowsPlan<Row extends Placed> {
  readonly table: Table;
  readonly ledger: FileLedger;
  readonly cells: RowCells;
  /** Rows mended by hand that were dropped back in. */
  readonly returned: ReturnedToFile;
  /** Reads the row at hand. */
  readonly read: () => Row;
  /**
   * Judges the row at hand beside the others: it may set it aside, add notes, or give it back
   * without a cell that cannot be true.
   */
  readonly judge: (row: Row, texts: readonly string[]) => Row;
}

/**
 * Reads the rows of a file. Each one that is met goes into the account once, as used or as set
 * aside; rows of empty cells are no rows.
 */
export async function readRows<Row extends Placed>(plan: RowsPlan<Row>): Promise<Row[]> {
  const { table } = plan;
  const reader = new RowsReader(plan);
  for (const record of table.strays) {
    reader.refuse(record, record.kind === 'title' ? say.titleRow() : say.unitsRow());
  }
  for await (const batch of table.records(isRowOf(table.plan))) {
    for (const record of batch) reader.take(record);
  }
  for (const { line, cells } of plan.returned.left()) {
    reader.takeReturned({ line, lastLine: line, cells, quotes: 'sound' });
  }
  return reader.rows;
}

class RowsReader<Row extends Placed> {
  readonly rows: Row[] = [];
  readonly #plan: RowsPlan<Row>;
  readonly #width: number;
  /** Columns up to the last that has a header. */
  readonly #named: number;
  readonly #headers: readonly string[];
  readonly #isStray: ReturnType<typeof strayRowTest>;

  constructor(plan: RowsPlan<Row>) {
    const { columns } = plan.table.plan;
    this.#plan = plan;
    this.#width = columns.length;
    this.#named = columns.findLastIndex((column) => column.header !== '') + 1;
    this.#headers = columns.map((column) => column.header);
    this.#isStray = strayRowTest(plan.table.plan);
  }

  /** Takes a record as it stands in the file. */
  take(record: TextRecord): void {
    const { ledger } = this.#plan;
    const texts = withoutBlankEnd(record.cells, this.#width);
    if (texts.every(isBlank)) {
      ledger.blank();
      return;
    }
    ledger.read();
    const row = { ...record, cells: texts };
    const aside = this.#use(row, false);
    if (aside !== null) this.#mendOrSetAside(row, aside);
  }

  /** Takes a row of `set-aside.csv` whose place in the file was not found. */
  takeReturned(record: TextRecord): void {
    this.#plan.ledger.read();
    const aside = this.#use(record, true, say.mendedByHand());
    if (aside !== null) this.#setAside(record, aside);
  }

  /** Sets a record aside without reading it. */
  refuse(record: TextRecord, message: PendingAside['message']): void {
    if (record.cells.every(isBlank)) {
      this.#plan.ledger.blank();
      return;
    }
    this.#plan.ledger.read();
    this.#mendOrSetAside(record, { column: null, received: record.cells.join(' '), message });
  }

  /** Uses the row as it was mended by hand, if it was; else sets it aside. */
  #mendOrSetAside(record: TextRecord, aside: PendingAside): void {
    const { line, cells } = record;
    const mended = this.#plan.returned.takeFor(line, aside.message.code, cells);
    if (mended === null) {
      this.#setAside(record, aside);
      return;
    }
    const again: TextRecord = { ...record, cells: mended, quotes: 'sound' };
    const still = this.#use(again, false, say.mendedByHand());
    if (still !== null) this.#setAside(again, still);
  }

  /** Uses a row if it can be used; else gives the reason why not. */
  #use(record: TextRecord, isReturned: boolean, mended?: PendingAside['message']) {
    const { cells, ledger, read, judge } = this.#plan;
    const { line, cells: texts } = record;
    cells.load(line, texts, isReturned);
    this.#refuseStray(record);
    if (cells.aside !== null) return cells.aside;
    const found = read();
    // A row that is set aside must not stand in the way of a later one as its twin.
    const row = cells.aside === null ? judge(found, texts) : found;
    if (cells.aside !== null) return cells.aside;
    this.#noteRepairs(record, mended);
    ledger.use(line, texts, cells.notes);
    this.rows.push(row);
    return null;
  }

  #noteRepairs({ cells: texts, quotes }: TextRecord, mended?: PendingAside['message']): void {
    const { cells } = this.#plan;
    if (mended !== undefined) cells.note('repaired', { column: null, received: '' }, mended);
    if (texts.length < this.#named) {
      const message = say.fewCells(texts.length, this.#named);
      cells.note('repaired', { column: null, received: '' }, message);
    }
    if (quotes === 'mended') {
      cells.note('repaired', { column: null, received: texts.join(' ') }, say.quotesMended());
    }
  }

  /** Sets aside what is no entry of the log, or cannot be split into its cells. */
  #refuseStray({ line, lastLine, cells: texts, quotes }: TextRecord): void {
    const { cells } = this.#plan;
    if (quotes === 'broken') {
      cells.setAside(null, texts[0] ?? '', say.quoteNotClosed(line, lastLine));
      return;
    }
    const stray = this.#isStray(texts);
    if (stray !== null) cells.setAside(null, stray.received, stray.message);
    else if (texts.length > this.#width) {
      const message = say.tooManyCells(texts.length, this.#width);
      cells.setAside(null, texts.slice(this.#width).join(' '), message);
    }
  }

  #setAside(record: TextRecord, { column, received, message }: PendingAside): void {
    const headers = record.quotes === 'broken' ? [UNSPLIT_TEXT] : this.#headers;
    const place = { line: record.line, column };
    this.#plan.ledger.setAside(place, record.cells, { message, received, headers });
  }
}
