import type { LogFile } from '../base/files.ts';
import { UserError } from '../base/problem.ts';
import type { Settings } from '../settings/settings.ts';
import type { FoundFile, TableFile } from './find-files.ts';
import { HeaderReader } from './header-plan.ts';
import type { Ledger } from './ledger.ts';
import { FileLedger } from './ledger-file.ts';
import { emptyFile } from './messages-files.ts';
import { fileEmpty } from './messages-tables.ts';
import { noteTable } from './note-table.ts';
import { openTable } from './open-table.ts';
import { readRows } from './read-rows.ts';
import type { ReturnedRows } from './returned-rows.ts';
import { RowCells } from './row-cells.ts';
import type { Placed } from './rows.ts';
import { surveyTable } from './survey-table.ts';
import { TableColumns } from './table-columns.ts';
import { baitColumns } from './tally-sheet.ts';

/** A log folder while it is being read. */
export interface Reading {
  readonly found: ReadonlyMap<TableFile, FoundFile>;
  readonly settings: Settings;
  readonly returned: ReturnedRows;
  readonly ledger: Ledger;
}

/** The rows of one file that may be used, and its account. */
export interface ReadTable<Row extends Placed> {
  readonly rows: readonly Row[];
  readonly ledger: FileLedger;
}

/** How the rows of one kind of file are read and judged. */
interface RowKind<Row extends Placed> {
  readonly read: (columns: TableColumns) => () => Row;
  readonly judge: (cells: RowCells) => (row: Row, texts: readonly string[]) => Row;
}

/** Files without which there is no log, so that an empty one is an error. */
const NEEDED: readonly LogFile[] = ['trips.csv', 'bites.csv'];

/**
 * Reads one file of the log in two passes: the first decides what only whole columns can tell, the
 * second reads the rows. Null where the log has no such file (or an optional one without any text).
 */
export async function readFile<Row extends Placed>(
  { found, settings, returned, ledger }: Reading,
  file: LogFile,
  kind: RowKind<Row>,
): Promise<ReadTable<Row> | null> {
  const onDisk = found.get(file);
  if (onDisk === undefined) return null;
  const own = settings.headers[file] ?? {};
  const places = settings.header_places[file] ?? {};
  const reader = new HeaderReader(file, { own, places, units: settings.units });
  const table = await openTable(onDisk, reader);
  if (table === null) {
    if (NEEDED.includes(file)) throw new UserError(emptyFile(onDisk.name), 3);
    ledger.note(onDisk.name, 'warned', { line: null, column: null, received: '' }, fileEmpty());
    return null;
  }
  const { plan } = table;
  const style = await surveyTable(table, settings.date_order);
  const cells = new RowCells(plan);
  const read = kind.read(new TableColumns(cells, { plan, style, settings }));
  const judge = kind.judge(cells);
  const account = new FileLedger(ledger, { file, table, decimalMark: style.mark ?? '.' });
  const rows = await readRows({
    table,
    ledger: account,
    cells,
    read,
    judge,
    returned: returned.of(plan),
  });
  const baits = new Set(baitColumns(plan));
  noteTable(table, { reader, ledger: account, isRead: (index) => baits.has(index) });
  return { rows, ledger: account };
}
