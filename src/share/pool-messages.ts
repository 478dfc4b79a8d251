import { printable } from '../base/words.ts';

/** What stops a package from being pooled, in sentences with the way on. */

const shown = (text: string) => `"${printable(text.length > 60 ? `${text.slice(0, 60)}…` : text)}"`;

export const noPackage = (path: string) =>
  `There is no package at ${path}. Name its folder, or the datapackage.json in it.`;

export const unreadable = (path: string, cause: string) => `${path} cannot be read: ${cause}.`;

export const tooLarge = (path: string) =>
  `${path} is larger than any package of sums; it was not read. Ask for it again.`;

export const noJson = (path: string) =>
  `${path} is no sound JSON, so nothing of this package can be trusted. Ask for it again.`;

export const notOurs = (path: string) =>
  `${path} describes a package, but not one made by "linehours share"; it cannot be pooled.`;

export const otherVersion = (path: string, schema: string, known: string) =>
  `${path} says ${shown(schema)}, and this version reads ${known}. Use the version of linehours that ` +
  'made it, or ask for it again from this one.';

export const badDescriptor = (path: string, place: string, expected: string) =>
  `${path}: ${place} is not what a package of linehours has there (${expected}). Ask for it again.`;

export const badPath = (path: string, file: string) =>
  `${path} names a file outside its own folder, ${shown(file)}; it was not opened.`;

export const missingFile = (folder: string, file: string) =>
  `${folder} lacks ${shown(file)}, which its datapackage.json lists. Copy the whole folder again.`;

export const changedFile = (folder: string, file: string) =>
  `${shown(file)} in ${folder} is not as it was when it left: its checksum differs. Copy it again ` +
  'from the owner; spreadsheets change a file when they save it.';

export const noTable = (folder: string, table: string) =>
  `${folder} has no table ${shown(table)}, so there is nothing of it to pool.`;

export const noisyPackage = (folder: string) =>
  `${folder} carries noise on its counts and no rates, so it cannot be pooled. Leave it out, or ask ` +
  'the owner for one without noise.';

export const badHeader = (file: string, expected: string) =>
  `${file}: the columns are not those of its schema (${expected}).`;

export const badCell = (
  file: string,
  place: { readonly line: number; readonly column: string },
  found: { readonly cell: string; readonly expected: string },
) => `${file} line ${place.line}, ${place.column}: ${shown(found.cell)} is not ${found.expected}.`;

export const twiceTheRow = (file: string, line: number, key: string) =>
  `${file} line ${line}: a second row for ${shown(key)}; each may stand once.`;

export const noSuchRow = (file: string, line: number, table: string) =>
  `${file} line ${line}: it points to a row of ${table} that is not there.`;

export const sumsDiffer = (folder: string, what: string) =>
  `${folder}: ${what} in rates.csv are not those of its rows, so one of the two was changed. Ask for ` +
  'it again.';

export const countedTwice = (first: string, second: string, when: string) =>
  `${first} and ${second} hold the same vessel in the same months (${when}); pooled, it would count ` +
  'twice. Leave one of them out.';

export const sameTwice = (first: string, second: string) =>
  `${first} and ${second} are one package under two names. Leave one of them out.`;
