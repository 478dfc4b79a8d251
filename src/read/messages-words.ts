import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** A hook size that may be several sizes, or none. */
export function hookSizeUnreadable(text: string): Message {
  return {
    code: 'hook-size-unreadable',
    text: `hook_size "${shownText(text)}" is no hook size, or may be more than one.`,
    remedy: 'Write the size as 7/0 or 2, in a column set to text in the spreadsheet.',
  };
}

/** A hook size that a spreadsheet or a hand had spelt otherwise. */
export function hookSizeRespelt(text: string, size: string): Message {
  return {
    code: 'hook-size-respelt',
    text: `hook_size "${shownText(text)}" was read as ${size}.`,
    remedy: 'Nothing to do; set the column to text in the spreadsheet and it needs no repair.',
  };
}

/** A spelling or synonym of a value. */
export function choiceRespelt(column: string, text: string, value: string): Message {
  return {
    code: `${column.replaceAll('_', '-')}-respelt`,
    text: `${column} "${shownText(text)}" was read as ${value}.`,
    remedy: `Nothing to do; written as ${value} it would need no repair.`,
  };
}

/** A word that is none of the values of its column. */
export function choiceUnknown(found: {
  column: string;
  text: string;
  values: readonly string[];
  near: string | null;
}): Message {
  const { column, text, values, near } = found;
  const list = `${values.slice(0, -1).join(', ')} or ${values.at(-1)}`;
  return {
    code: `${column.replaceAll('_', '-')}-unknown`,
    text: `${column} "${shownText(text)}" is not ${list}.`,
    remedy: near === null ? `Write ${list}.` : `Did you mean ${near}? Write ${list}.`,
  };
}

/** A position of the spread, spelt otherwise. */
export function positionRespelt(text: string, position: string): Message {
  return {
    code: 'position-respelt',
    text: `position "${shownText(text)}" was read as ${position}.`,
    remedy: `Nothing to do; written as ${position} it would need no repair.`,
  };
}

/** A position that the spread does not list. */
export function positionUnknown(text: string, near: string | null): Message {
  const way = near === null ? '' : `Did you mean ${near}? `;
  return {
    code: 'position-unknown',
    text: `position "${shownText(text)}" is not in the spread, so its side and reach are not known.`,
    remedy: `${way}Correct it, or list it under positions in season.yaml.`,
  };
}
