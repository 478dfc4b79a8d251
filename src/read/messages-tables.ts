import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** A header that means no column of this file. */
export function columnUnknown(header: string, near: string | null): Message {
  return {
    code: 'column-unknown',
    text: `The column "${shownText(header)}" is not known; its cells are kept but not read.`,
    remedy:
      near === null
        ? 'Nothing to do, or map it to a column under headers in season.yaml.'
        : `Did you mean ${near}? Rename it, or map it under headers in season.yaml.`,
  };
}

/** Cells under an empty header. */
export function columnWithoutHeader(cell: number): Message {
  return {
    code: 'column-without-header',
    text: `Column ${cell} has no header; its cells are kept but not read.`,
    remedy: 'Give the column a name.',
  };
}

/** The header gives another unit than the column has. */
export function unitConverted(header: string, column: string, unit: string): Message {
  return {
    code: 'unit-converted',
    text: `The column "${shownText(header)}" is in ${unit} and was converted to ${column}.`,
    remedy: 'Nothing to do.',
  };
}

/** The header gives no unit, so the one of the settings or of the column was taken. */
export function unitAssumed(header: string, column: string, unit: string): Message {
  return {
    code: 'unit-assumed',
    text: `The column "${shownText(header)}" names no unit; it was read as ${column} in ${unit}.`,
    remedy: 'Put the unit into the header, such as "depth_ft" or "Wind (mph)".',
  };
}

/** The settings map a header that the file does not have. */
export function mappedHeaderMissing(header: string): Message {
  return {
    code: 'mapped-header-missing',
    text: `season.yaml maps the header "${shownText(header)}", which this file does not have.`,
    remedy: 'Correct the header under headers in season.yaml.',
  };
}

/** Bytes that are no text. */
export function bytesUnreadable(count: number, encoding: string): Message {
  return {
    code: 'bytes-unreadable',
    text: `${count} bytes are no text in ${encoding} and show as "�".`,
    remedy: 'Save the file anew as CSV UTF-8.',
  };
}

/** NUL characters were dropped. */
export function nulsDropped(count: number): Message {
  return {
    code: 'nul-characters',
    text: `${count} NUL characters were dropped.`,
    remedy: 'Save the file anew as CSV UTF-8.',
  };
}

/** An optional file without a single line of text. */
export function fileEmpty(): Message {
  return {
    code: 'file-empty',
    text: 'The file is empty, without a header row, and was passed over.',
    remedy: 'Delete it, or give it a first row with the column names.',
  };
}
