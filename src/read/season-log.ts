import type { LogFile } from '../base/files.ts';
import type { Effect, Problem } from '../base/problem.ts';
import type { Settings } from '../settings/settings.ts';
import type { BaitBuyRow, BiteRow, SoakRow, SpoolRow, TripRow } from './rows.ts';

/** A whole log as read: the rows that may be used, and the account of every row that was read. */
export interface SeasonLog {
  /** The season's name: from the settings, else the folder's own name. */
  readonly name: string;
  readonly settings: Settings;
  readonly trips: readonly TripRow[];
  /** null where the log has no such file, which is not the same as a file without rows. */
  readonly soaks: readonly SoakRow[] | null;
  readonly bites: readonly BiteRow[];
  readonly spools: readonly SpoolRow[] | null;
  readonly baitBuys: readonly BaitBuyRow[] | null;
  readonly account: ReadAccount;
}

/** rows read = used + set aside, for each file and in total; checked before it is handed on. */
export interface ReadAccount {
  readonly files: readonly FileAccount[];
  /** At most a few hundred examples of each rule in each file; `problemCounts` has the full counts. */
  readonly problems: readonly Problem[];
  readonly problemCounts: readonly ProblemCount[];
  readonly setAside: readonly SetAsideRow[];
}

/** How often one rule spoke in one file, examples and the rest together. */
export interface ProblemCount {
  /** The file's own name on disk. */
  readonly file: string;
  readonly code: string;
  readonly effect: Effect;
  readonly count: number;
}

/** What one file was found to be, and what became of its rows. */
export interface FileAccount {
  readonly file: LogFile;
  /**
   * The name on disk, relative to the log folder; it differs from `file` in case or extension only,
   * or names a workbook and its sheet.
   */
  readonly path: string;
  /** `workbook` for a sheet, whose delimiter is empty. */
  readonly encoding: string;
  readonly delimiter: string;
  readonly lineEnd: string;
  readonly decimalMark: '.' | ',';
  /** Lines (and rows of empty cells) without any text; they are no rows. */
  readonly blankLines: number;
  readonly rowsRead: number;
  readonly rowsUsed: number;
  /** Rows used after at least one repair, among those used. */
  readonly rowsRepaired: number;
  /** Rows used with at least one warning, among those used. */
  readonly rowsWarned: number;
  readonly rowsSetAside: number;
  /** How each header was understood, in file order. */
  readonly columns: readonly ColumnAccount[];
}

export interface ColumnAccount {
  /** The header as it stood. */
  readonly header: string;
  /** The contract's column, or null for an unknown header, which is kept but not read. */
  readonly column: string | null;
  /** The unit converted from, e.g. `mph`; null when none. */
  readonly convertedFrom: string | null;
  /** Non-empty cells in rows used. */
  readonly cellsRecorded: number;
}

/** A row that may not be used, in full, as it goes into `set-aside.csv`. */
export interface SetAsideRow {
  readonly file: LogFile;
  readonly line: number;
  readonly column: string | null;
  readonly code: string;
  readonly reason: string;
  readonly remedy: string;
  /** Header and cell text as they stood. */
  readonly cells: readonly { readonly header: string; readonly text: string }[];
}
