import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

const AS_CSV = 'Save each of its sheets with "Save as", file type "CSV UTF-8", and read those';

/** More bytes on disk than a workbook may have. */
export function workbookTooLarge(name: string, bytes: number, most: number): string {
  return `${name} has ${millions(bytes)} MB; workbooks are read up to ${millions(most)} MB. ${AS_CSV}.`;
}

/** Packed so tightly that unpacking it could fill the memory. */
export function workbookSwells(name: string, bytes: number, most: number): string {
  return `${name} would unpack to ${millions(bytes)} MB or is packed tighter than any log; workbooks are unpacked up to ${millions(most)} MB. ${AS_CSV}.`;
}

/** An archive of more entries than a workbook has. */
export function workbookCrowded(name: string, entries: number): string {
  return `${name} holds ${entries} files, more than a workbook has. ${AS_CSV}.`;
}

/** Locked by a password, or the format before .xlsx, which begins with the same bytes. */
export function workbookLocked(name: string): string {
  return `${name} is locked by a password or is an old .xls file. Take the password off and save it as .xlsx. Or: ${AS_CSV}.`;
}

/** No workbook, or one that is damaged. */
export function workbookBroken(name: string, why = ''): string {
  const reason = why === '' ? '' : ` (${shownText(why)})`;
  return `${name} cannot be read as a workbook${reason}. Open it in a spreadsheet and save it anew. Or: ${AS_CSV}.`;
}

/** Reading took more memory or time than any log needs. */
export function workbookTooMuch(name: string): string {
  return `${name} holds more cells than can be read at once. ${AS_CSV}.`;
}

/** A workbook without the sheets of a log. */
export function noTableSheet(found: {
  readonly name: string;
  readonly missing: string;
  readonly sheets: readonly string[];
}): string {
  const { name, missing, sheets } = found;
  const shown = sheets.slice(0, 10).map((sheet) => `"${shownText(sheet)}"`);
  const more = sheets.length > shown.length ? ', …' : '';
  return `The log folder has no ${missing}, and ${name} has no sheet named ${missing.replace('.csv', '')}: its sheets are ${shown.join(', ')}${more}. Name them trips, bites, soaks, spools and bait-buys. Or: ${AS_CSV}.`;
}

/** A sheet whose name is none of the tables. */
export function sheetNotRead(sheet: string): Message {
  return {
    code: 'sheet-not-read',
    text: `The sheet "${shownText(sheet)}" is named like no table of a log and was not read.`,
    remedy:
      'Nothing to do, or name it trips, bites, soaks, spools, bait-buys or tally if it is one.',
  };
}

/** A workbook beside a whole log in CSV that cannot be looked into. */
export function workbookNotRead(reason: string): Message {
  return {
    code: 'workbook-not-read',
    text: `The workbook was not read: ${reason}`,
    remedy: 'Nothing to do if the CSV files are the whole log.',
  };
}

function millions(bytes: number): string {
  return (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0);
}
