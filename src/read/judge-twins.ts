import * as say from './messages-trips.ts';
import type { RowCells } from './row-cells.ts';

/**
 * Judges a row that is the same in every cell as an earlier one: a duplicate where that is certain
 * (or where it was dropped back in by hand), else a likely one that counts, with a warning.
 */
export function judgeTwin(cells: RowCells, line: number, isCertain: boolean): void {
  if (cells.isReturned) cells.setAside(null, '', say.alreadyInLog(line));
  else if (isCertain) cells.setAside(null, '', say.duplicateRow(line));
  else cells.note('warned', { column: null, received: '' }, say.twinRow(line));
}
