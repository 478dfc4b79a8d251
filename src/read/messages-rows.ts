import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** A column that a row cannot do without is empty, or says in words that it has nothing to say. */
export function requiredMissing(found: {
  column: string;
  received: string;
  values: readonly string[];
}): Message {
  const { column, values } = found;
  const received = shownText(found.received.trim());
  const which =
    values.length === 0 ? '' : `: ${values.slice(0, -1).join(', ')} or ${values.at(-1)}`;
  return {
    code: `${column.replaceAll('_', '-')}-missing`,
    text:
      received === ''
        ? `The row has no ${column}.`
        : `${column} "${received}" names no ${column}, and the row cannot be used without one.`,
    remedy:
      received === ''
        ? `Fill in ${column}${which}.`
        : `Write the ${column} in place of "${received}"${which}; if the row is no entry of the log, delete it.`,
  };
}

/** A cell far longer than anything a log holds. */
export function cellTooLong(column: string, length: number, most: number): Message {
  return {
    code: 'cell-too-long',
    text: `${column} holds ${length} characters; only ${most} are read.`,
    remedy: 'Shorten the cell; the rest of the row is used.',
  };
}

/** A word such as "n/a" in place of an empty cell. */
export function blankWord(column: string, text: string): Message {
  return {
    code: 'blank-word',
    text: `${column} "${shownText(text)}" was read as not recorded.`,
    remedy: 'Nothing to do; an empty cell says the same.',
  };
}

/** A quote was opened and not closed before the next sound row. */
export function quoteNotClosed(line: number, lastLine: number): Message {
  const span = line === lastLine ? `line ${line}` : `lines ${line} to ${lastLine}`;
  return {
    code: 'quote-not-closed',
    text: `A double quote opens on line ${line} and is not closed properly, so ${span} cannot be split into cells.`,
    remedy:
      'Close the quote at the end of its cell, or take it out; inside a quoted cell write "" for a quote.',
  };
}

/** More filled cells than the header has columns. */
export function tooManyCells(cells: number, headers: number): Message {
  return {
    code: 'too-many-cells',
    text: `The row has ${cells} cells under ${headers} headers, so its cells may stand in the wrong columns.`,
    remedy: 'Put text that contains the delimiter in double quotes, or remove the extra cells.',
  };
}

/** Cells at the end of the row are missing. */
export function fewCells(cells: number, headers: number): Message {
  return {
    code: 'short-row',
    text: `The row ends after ${cells} of ${headers} cells; the missing ones were read as not recorded.`,
    remedy: 'Nothing to do if those cells were empty.',
  };
}

/** Quotes out of place that could be read in one way only. */
export function quotesMended(): Message {
  return {
    code: 'quotes-mended',
    text: 'Quotes stand where CSV does not allow them; the cells were split in the one way that fits the header.',
    remedy: 'Nothing to do; without quotes, or with the whole cell in quotes, it needs no repair.',
  };
}

/** The header stands again among the rows. */
export function repeatedHeader(): Message {
  return {
    code: 'repeated-header',
    text: 'The row repeats the header.',
    remedy: 'Nothing to do, or delete the line.',
  };
}

/** A total, an average or the like, which is no entry of the log. */
export function totalRow(text: string): Message {
  return {
    code: 'total-row',
    text: `The row holds a total ("${shownText(text)}") and is no entry of the log.`,
    remedy: 'Nothing to do, or delete the line.',
  };
}

/** A row of units right below the header. */
export function unitsRow(): Message {
  return {
    code: 'units-row',
    text: 'The row names the units of the columns and is no entry of the log; the units were used.',
    remedy: 'Nothing to do; units in the header itself need no such row.',
  };
}

/** A row above the header: a title, the boat's name. */
export function titleRow(): Message {
  return {
    code: 'title-row',
    text: 'The row stands above the header and is no entry of the log.',
    remedy: 'Nothing to do, or delete the line.',
  };
}

/** A row that was set aside by an earlier import and came back mended. */
export function mendedByHand(): Message {
  return {
    code: 'mended-by-hand',
    text: 'The row was read as it is mended in set-aside.csv.',
    remedy: 'Nothing to do; once the file itself is mended, set-aside.csv can go.',
  };
}
