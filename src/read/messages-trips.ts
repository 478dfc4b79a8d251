import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** What may belong to a trip. */
export type OfTrip = 'soak' | 'bite' | 'tally' | 'purchase';

/** A row that belongs to no trip of the log. */
export function tripUnknown(what: OfTrip, text: string): Message {
  const so = what === 'purchase' ? 'it counts without one' : `this ${what} belongs to no day`;
  return {
    code: `${what}-without-trip`,
    text: `trips.csv has no trip "${shownText(text)}", so ${so}.`,
    remedy: 'Correct trip_id, or add the trip to trips.csv.',
  };
}

/** A trip number in other case or spacing, or without its zeros. */
export function tripIdRespelt(text: string, tripId: string): Message {
  return {
    code: 'trip-id-respelt',
    text: `trip_id "${shownText(text)}" was read as ${shownText(tripId)}.`,
    remedy: 'Nothing to do; written as in trips.csv it would need no repair.',
  };
}

/** A second trip under a number that is taken. */
export function tripIdTwice(tripId: string, line: number): Message {
  return {
    code: 'trip-id-twice',
    text: `The trip "${shownText(tripId)}" already stands on line ${line}; soaks and bites could not tell the two apart.`,
    remedy: 'Give each trip a number of its own, or delete the second row.',
  };
}

/** The same row again. */
export function duplicateRow(line: number): Message {
  return {
    code: 'duplicate-row',
    text: `The row is the same as line ${line} in every cell and was counted once.`,
    remedy: 'Delete one of the two rows; if they are two, give them different times or numbers.',
  };
}

/** The same row again, but nothing in it tells whether it is the same event. */
export function twinRow(line: number): Message {
  return {
    code: 'twin-row',
    text: `The row is the same as line ${line}, but without a time or number nobody can say whether it was pasted twice; both count.`,
    remedy: 'Delete one of the two rows if it was pasted twice.',
  };
}

/** Two bites under one number. */
export function biteIdTwice(biteId: string, line: number): Message {
  return {
    code: 'bite-id-twice',
    text: `The bite "${shownText(biteId)}" of this trip already stands on line ${line}, with other cells.`,
    remedy: 'Give each bite a number of its own, or delete the wrong row.',
  };
}

/** A row of set-aside.csv that cannot be brought home. */
export function returnedAstray(): Message {
  return {
    code: 'set-aside-astray',
    text: 'The row of set-aside.csv names no file of this log, or no line of it, and was not read.',
    remedy: 'Leave the first two columns, file and line, as check wrote them.',
  };
}

/** A row of set-aside.csv that stands in its file already. */
export function alreadyInLog(line: number): Message {
  return {
    code: 'already-in-log',
    text: `The row of set-aside.csv already stands in its file, on line ${line}, and was not counted again.`,
    remedy: 'Delete the row from set-aside.csv.',
  };
}
