/** The last row a sheet may have; spreadsheets themselves stop there. */
const MOST_ROWS = 1_048_576;
/** Rows × columns; a log of a million bites in twenty columns stays below. */
const MOST_CELLS = 25_000_000;

/** A row or cell as spreadsheets write it: sound attributes and an end; else only how it begins. */
const PLACED =
  /<(?:\w{1,20}:)?(?:row|c)(?:((?:\s{1,4}[\w:.-]{1,40}\s?=\s?(?:"[^"<]{0,400}"|'[^'<]{0,400}'))*)\s{0,4}(\/?)>|(?=[\s/>]))/g;
const ADDRESS = /\sr\s?=\s?["']([^"']*)["']/;

/**
 * Whether the XML of a sheet places its rows and filled cells further out than any log reaches, or in
 * a way that does not say how far. Every row and cell up to the last would be laid out in memory,
 * though the file holds but one.
 */
export function reachesTooFar(xml: Buffer): boolean {
  let rows = 0;
  let columns = 0;
  for (const [, attributes, end] of xml.toString('latin1').matchAll(PLACED)) {
    if (attributes === undefined) return true;
    const address = ADDRESS.exec(attributes)?.[1];
    if (address === undefined) continue;
    const [, letters = '', row = ''] = /^([A-Z]{0,3})(\d{1,7})$/.exec(address) ?? [];
    if (row === '') return true;
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
