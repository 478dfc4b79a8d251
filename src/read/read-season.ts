import { basename, resolve } from 'node:path';
import type { LogFile } from '../base/files.ts';
import { UserError } from '../base/problem.ts';
import { readSettings } from '../settings/read-settings.ts';
import type { Settings } from '../settings/settings.ts';
import { type FoundFile, findFiles, type TableFile } from './find-files.ts';
import { HeaderReader } from './header-plan.ts';
import { biteJudge, type Judge, purchaseJudge, soakJudge, tripJudge } from './judge-rows.ts';
import { Ledger } from './ledger.ts';
import { FileLedger } from './ledger-file.ts';
import { emptyFile } from './messages-files.ts';
import { openTable } from './open-table.ts';
import { biteReader } from './read-bites.ts';
import { baitBuyReader, spoolReader } from './read-purchases.ts';
import { readRows } from './read-rows.ts';
import { soakReader } from './read-soaks.ts';
import { tripReader } from './read-trips.ts';
import { RowCells } from './row-cells.ts';
import type { Placed } from './rows.ts';
import type { SeasonLog } from './season-log.ts';
import { surveyTable } from './survey-table.ts';
import { TableColumns } from './table-columns.ts';
import { TripIndex } from './trip-index.ts';

/**
 * Reads a season log: a folder with `trips.csv` and `bites.csv`, three more files that may be
 * missing, and `season.yaml`. Every row that is read is used (perhaps after a stated repair or with
 * a warning) or set aside with its reason; the account of it is checked before it is handed on. No
 * file is ever written to.
 * @throws UserError with exit code 2 for settings that are wrong, 3 for a log that cannot be read.
 */
export async function readSeason(
  folder: string,
  options: { readonly settingsFile?: string } = {},
): Promise<SeasonLog> {
  const found = await findFiles(folder);
  const settings = await readSettings(folder, options.settingsFile);
  const reading = new SeasonReading(found, settings);
  const trips = (await reading.read('trips.csv', tripReader, tripJudge)) ?? [];
  const index = new TripIndex(trips);
  const soaks = await reading.read('soaks.csv', (c) => soakReader(c, index), soakJudge);
  const bites = await reading.read('bites.csv', (c) => biteReader(c, index), biteJudge);
  const spools = await reading.read('spools.csv', spoolReader, purchaseJudge);
  const baitBuys = await reading.read(
    'bait-buys.csv',
    (c) => baitBuyReader(c, index),
    purchaseJudge,
  );
  return {
    name: settings.name ?? basename(resolve(folder)),
    settings,
    trips,
    soaks,
    bites: bites ?? [],
    spools,
    baitBuys,
    account: reading.ledger.close(),
  };
}

/** The files and settings of a season while it is being read. */
class SeasonReading {
  readonly ledger = new Ledger();
  readonly #found: ReadonlyMap<TableFile, FoundFile>;
  readonly #settings: Settings;

  constructor(found: ReadonlyMap<TableFile, FoundFile>, settings: Settings) {
    this.#found = found;
    this.#settings = settings;
  }

  /** Reads one file; null where the log has none. */
  async read<Row extends Placed>(
    file: LogFile,
    readerOf: (columns: TableColumns) => () => Row,
    judgeOf: (cells: RowCells) => Judge<Row>,
  ): Promise<Row[] | null> {
    const found = this.#found.get(file);
    if (found === undefined) return null;
    const settings = this.#settings;
    const table = await openTable(found, new HeaderReader(file, settings.headers[file]));
    if (table === null) throw new UserError(emptyFile(found.name), 3);
    const style = await surveyTable(table, settings.date_order);
    const cells = new RowCells(table.plan);
    const columns = new TableColumns(cells, { plan: table.plan, style, settings });
    const ledger = new FileLedger(this.ledger, table, style.mark ?? '.');
    const read = readerOf(columns);
    return readRows({ table, ledger, cells, read, judge: judgeOf(cells) });
  }
}
