import { unlocksOf } from '../decide/unlocks.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { writeSetAside } from '../write/set-aside-file.ts';
import { checkText } from './check-text.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { loadSeason } from './load-season.ts';
import { commonOptions, type GivenOptions } from './options.ts';

/**
 * `check`: reads the log and says what became of every row. Rows set aside are written in full to
 * set-aside.csv in the folder of --out (else the current one), never over a file that is there.
 */
export async function checkCommand(
  folder: string,
  given: GivenOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const season = await loadSeason(folder, options, effects);
  const { account } = season;
  const written = await writeSetAside(options.out ?? '.', account);
  effects.out(
    options.json
      ? documentText({ ...documentHead('check', season, options), ...checkRecord(season, written) })
      : checkText(season, { written, colours: effects.colours }),
  );
  return account.setAside.length > 0 ? 1 : 0;
}

function checkRecord(season: TidySeason, written: string | null) {
  const { account } = season;
  return {
    files: account.files.map((file) => ({
      file: file.file,
      path: file.path,
      encoding: file.encoding,
      delimiter: file.delimiter,
      line_end: file.lineEnd,
      decimal_mark: file.decimalMark,
      blank_lines: file.blankLines,
      rows_read: file.rowsRead,
      rows_used: file.rowsUsed,
      rows_repaired: file.rowsRepaired,
      rows_warned: file.rowsWarned,
      rows_set_aside: file.rowsSetAside,
      columns: file.columns.map((column) => ({
        header: column.header,
        column: column.column,
        converted_from: column.convertedFrom,
        cells_recorded: column.cellsRecorded,
      })),
    })),
    problem_counts: account.problemCounts,
    problems: account.problems,
    set_aside: account.setAside,
    unlocks: unlocksOf(season.log),
    written: written === null ? [] : [written],
  };
}
