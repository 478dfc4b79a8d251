import { basename, resolve } from 'node:path';
import { TALLY_FILE } from '../base/files.ts';
import { readSettings } from '../settings/read-settings.ts';
import type { Settings } from '../settings/settings.ts';
import { ClockChanges } from './clock-changes.ts';
import { type FoundLog, findFiles } from './find-files.ts';
import { biteJudge } from './judge-bites.ts';
import { purchaseJudge } from './judge-purchases.ts';
import { soakJudge } from './judge-soaks.ts';
import { tripJudge } from './judge-trips.ts';
import { Ledger } from './ledger.ts';
import { tallyUnderBites } from './messages-tally.ts';
import { returnedAstray } from './messages-trips.ts';
import { pointOutFarDates } from './point-out-dates.ts';
import { pointOutOverlaps } from './point-out-overlaps.ts';
import { biteReader } from './read-bites.ts';
import { type Reading, readFile } from './read-file.ts';
import { baitBuyReader, spoolReader } from './read-purchases.ts';
import { soakReader } from './read-soaks.ts';
import { tripReader } from './read-trips.ts';
import { ReturnedRows } from './returned-rows.ts';
import type { BaitBuyRow, SpoolRow } from './rows.ts';
import type { SeasonLog } from './season-log.ts';
import { settleWords } from './settle-words.ts';
import { isTallyInBites } from './tally-in-bites.ts';
import { tallyJudge, tallyReader } from './tally-sheet.ts';
import { TripIndex } from './trip-index.ts';

/**
 * Reads a season log: a folder with `trips.csv` and `bites.csv` (or `tally.csv`), further files that
 * may be missing, and `season.yaml`. Trips come first, for every other row is judged beside its
 * trip. Every row that is read is used (perhaps after a stated repair or with a warning) or set
 * aside with its reason; the account of it is checked before it is handed on. No file is ever
 * written to.
 * @throws UserError with exit code 2 for settings that are wrong, 3 for a log that cannot be read.
 */
export async function readSeason(
  folder: string,
  options: { readonly settingsFile?: string } = {},
): Promise<SeasonLog> {
  const reading = await openLog(folder, options.settingsFile);
  const { settings, ledger } = reading;
  const changes = new ClockChanges(settings.time_zone);

  const trips = await readFile(reading, 'trips.csv', {
    read: tripReader,
    judge: (c) => tripJudge(c, changes),
  });
  const index = new TripIndex(trips?.rows ?? []);
  const soaks = await readFile(reading, 'soaks.csv', {
    read: (columns) => soakReader(columns, index),
    judge: (cells) => soakJudge(cells, index, changes),
  });
  const bites = await readFile(reading, 'bites.csv', {
    read: (columns) => biteReader(columns, index),
    judge: (cells) => biteJudge(cells, index, changes),
  });
  const tally = await readFile(reading, 'tally.csv', {
    read: (columns) => tallyReader(columns, index),
    judge: (cells) => tallyJudge(cells, bites?.rows ?? []),
  });
  const spools = await readFile(reading, 'spools.csv', {
    read: spoolReader,
    judge: (cells) => purchaseJudge<SpoolRow>(cells),
  });
  const baitBuys = await readFile(reading, 'bait-buys.csv', {
    read: (columns) => baitBuyReader(columns, index),
    judge: (cells) => purchaseJudge<BaitBuyRow>(cells),
  });

  const tallied = (tally?.rows ?? []).flatMap((row) => row.bites);
  settleWords(
    { trips, soaks, bites, spools, baitBuys, tallied: tally && { ...tally, rows: tallied } },
    settings,
  );
  if (trips !== null) pointOutFarDates(trips);
  if (soaks !== null) pointOutOverlaps(soaks, index);
  // A row that counts no bites is read and used, but stands for no bite.
  const counted = (bites?.rows ?? []).filter((bite) => bite.count > 0);
  return {
    name: settings.name ?? basename(resolve(folder)),
    settings,
    trips: trips?.rows ?? [],
    soaks: soaks?.rows ?? null,
    bites: tallied.length === 0 ? counted : [...counted, ...tallied],
    spools: spools?.rows ?? null,
    baitBuys: baitBuys?.rows ?? null,
    account: ledger.close(),
  };
}

/** Finds the files and settings of a log and what is to be said of the folder as a whole. */
async function openLog(folder: string, settingsFile: string | undefined): Promise<Reading> {
  const { files, unread } = await findFiles(folder);
  const written = await readSettings(folder, settingsFile);
  const isTally = await isTallyInBites(files, written);
  const log = isTally ? asTally(files, written) : { found: files, settings: written };
  const returned = await ReturnedRows.read(log.found.get('set-aside.csv'));
  const ledger = new Ledger();
  const place = { line: null, column: null, received: '' };
  if (isTally) {
    ledger.note(files.get('bites.csv')?.name ?? '', 'repaired', place, tallyUnderBites());
  }
  for (const { name, sheet, message } of unread) {
    ledger.note(name, 'warned', { ...place, received: sheet }, message);
  }
  for (const line of returned.linesAstray(log.found)) {
    ledger.note('set-aside.csv', 'warned', { ...place, line, column: 'file' }, returnedAstray());
  }
  return { ...log, returned, ledger };
}

/** The tables and header maps with `bites.csv` in the place of the tally sheet. */
function asTally(files: FoundLog['files'], settings: Settings) {
  const found: FoundLog['files'] = new Map(
    [...files].map(([file, table]) => [file === 'bites.csv' ? TALLY_FILE : file, table]),
  );
  const from = settings.headers['bites.csv'] === undefined ? TALLY_FILE : 'bites.csv';
  const { headers, header_places } = settings;
  const moved = {
    headers: { ...headers, [TALLY_FILE]: headers[from] ?? {} },
    header_places: { ...header_places, [TALLY_FILE]: header_places[from] ?? {} },
  };
  return { found, settings: { ...settings, ...moved } };
}
