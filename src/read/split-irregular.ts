import { closingQuote } from './quote-state.ts';

/** How to read a quote that stands inside a cell. */
type Reading = 'quoted-with-quotes' | 'plain-with-quotes';

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
  for (const reading of ['quoted-with-quotes', 'plain-with-quotes'] as const) {
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
  let close = closingQuote(line, start + 1);
  while (close !== -1) {
    const end = endAfter(line, close + 1, delimiter);
    if (end !== null) return { text: unquoted(line.slice(start + 1, close)), end };
    if (reading === 'plain-with-quotes') return plainCell(line, at, delimiter);
    close = closingQuote(line, close + 1);
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

function unquoted(text: string): string {
  return text.replaceAll('""', '"');
}
