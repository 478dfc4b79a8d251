import { printable } from '../base/words.ts';

/** What stops a package from being pooled, in sentences with the way on. */

const shown = (text: string) => `"${printable(text.length > 60 ? `${text.slice(0, 60)}…` : text)}"`;

/** Nothing is at the path, or no descriptor in the folder. */
export const noPackage = (path: string) =>
  `There is no package at ${path}. Name its folder, or the datapackage.json in it.`;

/** The machine refused to read a file, or its text is no CSV. */
export const unreadable = (path: string, cause: string) => `${path} cannot be read: ${cause}.`;

/** A file larger than sums can be. */
export const tooLarge = (path: string) =>
  `${path} is larger than any package of sums; it was not read. Ask for it again.`;

/** A descriptor cut off or edited by hand. */
export const noJson = (path: string) =>
  `${path} is no sound JSON, so nothing of this package can be trusted. Ask for it again.`;

/** A package of another kind. */
export const notOurs = (path: string) =>
  `${path} describes a package, but not one made by "linehours share"; it cannot be pooled.`;

/** A package of another version of this tool. */
export const otherVersion = (path: string, schema: string, known: string) =>
  `${path} says ${shown(schema)}, and this version reads ${known}. Use the version of linehours that ` +
  'made it, or ask for it again from this one.';

/** A descriptor that lacks something, or has something else in its place. */
export const badDescriptor = (path: string, place: string, expected: string) =>
  `${path}: ${place} is not what a package of linehours has there (${expected}). Ask for it again.`;

/** A path that leads out of the folder. */
export const badPath = (path: string, file: string) =>
  `${path} names a file outside its own folder, ${shown(file)}; it was not opened.`;

/** A file that the descriptor lists is not there. */
export const missingFile = (folder: string, file: string) =>
  `${folder} lacks ${shown(file)}, which its datapackage.json lists. Copy the whole folder again.`;

/** A file whose checksum is not the one it left with. */
export const changedFile = (folder: string, file: string) =>
  `${shown(file)} in ${folder} is not as it was when it left: its checksum differs. Copy it again ` +
  'from the owner; spreadsheets change a file when they save it.';

/** A table that pooling needs is not listed. */
export const noTable = (folder: string, table: string) =>
  `${folder} has no table ${shown(table)}, so there is nothing of it to pool.`;

/** Counts with noise have no rates. */
export const noisyPackage = (folder: string) =>
  `${folder} carries noise on its counts and no rates, so it cannot be pooled. Leave it out, or ask ` +
  'the owner for one without noise.';

/** Columns that are not those of the schema. */
export const badHeader = (file: string, expected: string) =>
  `${file}: the columns are not those of its schema (${expected}).`;

/** A cell that breaks its type or a constraint. */
export const badCell = (
  file: string,
  place: { readonly line: number; readonly column: string },
  found: { readonly cell: string; readonly expected: string },
) => `${file} line ${place.line}, ${place.column}: ${shown(found.cell)} is not ${found.expected}.`;

/** Two rows of one key. */
export const twiceTheRow = (file: string, line: number, key: string) =>
  `${file} line ${line}: a second row for ${shown(key)}; each may stand once.`;

/** A row that points at nothing. */
export const noSuchRow = (file: string, line: number, table: string) =>
  `${file} line ${line}: it points to a row of ${table} that is not there.`;

/** Rates that do not follow from the rows. */
export const sumsDiffer = (folder: string, what: string) =>
  `${folder}: ${what} in rates.csv are not those of its rows, so one of the two was changed. Ask for ` +
  'it again.';

/** Trips or vessels of the descriptor that are not those of the rows. */
export const badCounts = (folder: string) =>
  `${folder}: the trips and vessels that its datapackage.json tells are not those of its rows, so one ` +
  'of the two was changed. Ask for it again.';

/** One vessel in one month in two packages. */
export const countedTwice = (first: string, second: string, when: string) =>
  `${first} and ${second} hold the same vessel in the same months (${when}); pooled, it would count ` +
  'twice. Leave one of them out.';

/** One folder named twice. */
export const namedTwice = (folder: string) => `${folder} is named twice. Name each package once.`;

/** One package given twice. */
export const sameTwice = (first: string, second: string) =>
  `${first} and ${second} are one package under two names. Leave one of them out.`;
