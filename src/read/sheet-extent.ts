/** The last row a sheet may have; spreadsheets themselves stop there. */
const MOST_ROWS = 1_048_576;
/** Rows × columns; a log of a million bites in twenty columns stays below. */
const MOST_CELLS = 25_000_000;

const PLACED = /<(?:\w+:)?(?:row|c)\s(?:[^<>]*?\s)?r="([A-Z]*)(\d+)"[^<>]*?(\/?)>/g;

/**
 * Whether the XML of a sheet places its rows and filled cells further out than any log reaches. Every
 * row and cell up to the last would be laid out in memory, though the file holds but one.
 */
export function reachesTooFar(xml: Buffer): boolean {
  let rows = 0;
  let columns = 0;
  for (const [, letters = '', row = '', end = ''] of xml.toString('latin1').matchAll(PLACED)) {
    rows = Math.max(rows, Number(row));
    if (end === '') columns = Math.max(columns, columnNumber(letters));
    if (rows > MOST_ROWS || rows * columns > MOST_CELLS) return true;
  }
  return false;
}

/** `A` is 1, `Z` 26, `AA` 27; a row has no letters and gives 0. */
function columnNumber(letters: string): number {
  let number = 0;
  for (const letter of letters) number = number * 26 + letter.charCodeAt(0) - 64;
  return number;
}
