import { closingQuote } from './quote-state.ts';

/**
 * How to read quotes inside a cell: as text of a quoted cell, where a doubled one still stands for
 * one (`doubled`) or does not (`single`); or the whole cell as plain text.
 */
type Reading = 'doubled' | 'single' | 'plain';

/**
 * Splits a line whose quotes break the rules of CSV, for the csv parser would refuse it or cut it
 * in the wrong place: a space before an opening quote, an inch mark in a plain cell, a quoted cell
 * with bare quotes inside. Each reading is tried; the one that gives `width` cells is taken.
 * Returns null where none does, or where a cell is left open: then nobody can say what was meant.
 */
export function splitIrregular(
  line: string,
  delimiter: string,
  width: number | null,
): string[] | null {
  for (const reading of ['doubled', 'single', 'plain'] as const) {
    const cells = splitBy(line, delimiter, reading);
    if (cells !== null && (width === null || cells.length === width)) return cells;
  }
  return null;
}

function splitBy(line: string, delimiter: string, reading: Reading): string[] | null {
  const cells: string[] = [];
  let at = 0;
  while (at <= line.length) {
    const cell = cellAt(line, at, delimiter, reading);
    if (cell === null) return null;
    cells.push(cell.text);
    at = cell.end + delimiter.length;
  }
  return cells;
}

/** The cell that begins at a place, and where it ends; null for a quoted cell without an end. */
function cellAt(line: string, at: number, delimiter: string, reading: Reading) {
  let start = at;
  while (line[start] === ' ' && delimiter !== ' ') start++;
  if (line[start] !== '"') return plainCell(line, at, delimiter);
  const next = (from: number) =>
    reading === 'single' ? line.indexOf('"', from) : closingQuote(line, from);
  let close = next(start + 1);
  while (close !== -1) {
    const end = endAfter(line, close + 1, delimiter);
    if (end !== null) return { text: line.slice(start + 1, close).replaceAll('""', '"'), end };
    if (reading === 'plain') return plainCell(line, at, delimiter);
    close = next(close + 1);
  }
  return null;
}

function plainCell(line: string, at: number, delimiter: string) {
  const next = line.indexOf(delimiter, at);
  const end = next === -1 ? line.length : next;
  return { text: line.slice(at, end), end };
}

/** Where the cell ends if only spaces follow up to a delimiter or the line's end; else null. */
function endAfter(line: string, from: number, delimiter: string): number | null {
  let at = from;
  while (line[at] === ' ') at++;
  return at === line.length || line.startsWith(delimiter, at) ? at : null;
}
