/** The folder named in the call is not there. */
export function noFolder(folder: string): string {
  return `There is no folder ${folder}. Name the folder that holds trips.csv and bites.csv.`;
}

/** A file was named where a folder is wanted. */
export function notAFolder(folder: string): string {
  return `${folder} is a file. Name the folder that holds trips.csv and bites.csv.`;
}

/** The system refuses to read. */
export function unreadable(path: string, error: Error): string {
  return `${path} cannot be read (${error.message}). Check the file’s permissions.`;
}

/** Two files could be the same table. */
export function twoFiles(file: string, first: string, second: string): string {
  return `Both ${first} and ${second} could be ${file}. Keep one of them in the folder.`;
}

/** A link that leads nowhere. */
export function deadLink(name: string): string {
  return `${name} is a link to a file that is not there. Put the file itself into the folder.`;
}

/** A link that leads out of the log folder. */
export function leadsOut(name: string): string {
  return `${name} is a link that leads out of the log folder. Put the file itself into the folder.`;
}

/** A folder, a pipe or a device under the name of a table. */
export function notAFile(name: string, isFolder: boolean): string {
  return `${name} is ${isFolder ? 'a folder' : 'no plain file'}. Put the CSV file itself into the log folder.`;
}

/** A table that a log cannot do without. */
export function missingFile(found: {
  folder: string;
  missing: string;
  names: readonly string[];
}): string {
  const { folder, missing, names } = found;
  const shown = names.filter((name) => !name.startsWith('.')).slice(0, 10);
  const more = names.length > shown.length ? ', …' : '';
  const there =
    shown.length === 0 ? 'The folder is empty.' : `It holds ${shown.join(', ')}${more}.`;
  return `The log folder ${folder} has no ${missing}. ${there} A log needs trips.csv and bites.csv.`;
}

/** Only a workbook of a kind that is not read is there. */
export function workbookOnly(workbook: string, missing: string): string {
  return `The log folder has no ${missing}, but a workbook ${workbook}. Save it as .xlsx with sheets named trips, bites, soaks, spools and bait-buys; or save each of its sheets with "Save as", file type "CSV UTF-8", under the names trips.csv, bites.csv, soaks.csv, spools.csv and bait-buys.csv.`;
}

/** A required table without a single line of text. */
export function emptyFile(name: string): string {
  return `${name} is empty. It needs a first row with the column names, and may have no rows below it.`;
}
