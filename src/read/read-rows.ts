import type { TextRecord } from './csv-records.ts';
import type { FileLedger } from './ledger-file.ts';
import * as say from './messages-rows.ts';
import { type Table, withoutBlankEnd } from './open-table.ts';
import type { RowCells } from './row-cells.ts';
import { isRowOf } from './row-shape.ts';
import type { Placed } from './rows.ts';
import { repeatedHeaderTest, totalWordFinder } from './stray-rows.ts';

/** How the rows of one file are read. */
export interface RowsPlan<Row extends Placed> {
  readonly table: Table;
  readonly ledger: FileLedger;
  readonly cells: RowCells;
  /** Reads the row at hand. */
  readonly read: () => Row;
  /** Judges the row at hand beside the others: it may set it aside or add notes. */
  readonly judge: (row: Row, texts: readonly string[]) => void;
}

/**
 * Reads the rows of a file. Each one that is met goes into the account once, as used or as set
 * aside; rows of empty cells are no rows.
 */
export async function readRows<Row extends Placed>(plan: RowsPlan<Row>): Promise<Row[]> {
  const { table } = plan;
  const stray = { isHeader: repeatedHeaderTest(table.plan), total: totalWordFinder(table.plan) };
  const rows: Row[] = [];
  for (const record of table.above) {
    plan.ledger.read();
    setAside(plan, record, {
      column: null,
      received: record.cells.join(' '),
      message: say.titleRow(),
    });
  }
  for await (const batch of table.records(isRowOf(table.plan))) {
    for (const record of batch) {
      const row = readRecord(plan, record, stray);
      if (row !== null) rows.push(row);
    }
  }
  return rows;
}

/** The tests for rows that are no entries. */
interface StrayTests {
  readonly isHeader: (texts: readonly string[]) => boolean;
  readonly total: (texts: readonly string[]) => string | null;
}

function readRecord<Row extends Placed>(
  plan: RowsPlan<Row>,
  record: TextRecord,
  stray: StrayTests,
): Row | null {
  const { cells, ledger, table } = plan;
  const width = table.plan.columns.length;
  const texts = withoutBlankEnd(record.cells, width);
  if (texts.every((text) => text.trim() === '')) {
    ledger.blank();
    return null;
  }
  ledger.read();
  cells.load(record.line, texts);
  refuseStrayRow(plan, { ...record, cells: texts }, stray);
  const row = cells.aside === null ? plan.read() : null;
  if (row !== null && cells.aside === null) plan.judge(row, texts);
  if (row === null || cells.aside !== null) {
    const why = cells.aside ?? { column: null, received: '', message: say.titleRow() };
    setAside(plan, { ...record, cells: texts }, why);
    return null;
  }
  if (texts.length < width) {
    cells.note('repaired', { column: null, received: '' }, say.fewCells(texts.length, width));
  }
  if (record.quotes === 'mended') {
    cells.note('repaired', { column: null, received: texts.join(' ') }, say.quotesMended());
  }
  ledger.use(record.line, texts, cells.notes);
  return row;
}

/** Sets aside what is no entry of the log, or cannot be split into its cells. */
function refuseStrayRow<Row extends Placed>(
  plan: RowsPlan<Row>,
  record: TextRecord,
  stray: StrayTests,
): void {
  const { cells, table } = plan;
  const { columns } = table.plan;
  const texts = record.cells;
  if (record.quotes === 'broken') {
    const message = say.quoteNotClosed(record.line, record.lastLine);
    cells.setAside(null, texts[0] ?? '', message);
    return;
  }
  if (stray.isHeader(texts)) {
    cells.setAside(null, texts.join(' '), say.repeatedHeader());
    return;
  }
  const total = stray.total(texts);
  if (total !== null) {
    cells.setAside(null, total, say.totalRow(total));
    return;
  }
  if (texts.length > columns.length) {
    cells.setAside(
      null,
      texts.slice(columns.length).join(' '),
      say.tooManyCells(texts.length, columns.length),
    );
  }
}

function setAside<Row extends Placed>(
  plan: RowsPlan<Row>,
  record: TextRecord,
  why: NonNullable<RowCells['aside']>,
): void {
  const isSplit = record.quotes !== 'broken';
  plan.ledger.setAside({ line: record.line, column: why.column }, record.cells, {
    message: why.message,
    received: why.received,
    headers: isSplit ? plan.table.plan.columns.map((column) => column.header) : ['unsplit text'],
  });
}
