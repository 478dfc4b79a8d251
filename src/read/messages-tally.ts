import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** A tally sheet with nothing to count in it. */
export function tallyWithoutCounts(name: string): string {
  return `${name} has no counts: it needs the columns missed, lost, released and kept, or outcome and count, or outcome and one column for each bait.`;
}

/** A row of a tally sheet without any count. */
export function tallyEmpty(): Message {
  return {
    code: 'tally-empty',
    text: 'The row has no count in any column and stands for no bites.',
    remedy: 'Write the counts, or delete the row.',
  };
}

/** Bites of one trip stand in both files. */
export function tripWrittenAndTallied(tripId: string): Message {
  return {
    code: 'trip-written-and-tallied',
    text: `The bites of trip "${shownText(tripId)}" stand in bites.csv already; to count its tally too would count them twice.`,
    remedy: 'Keep the trip in one of the two files.',
  };
}

/** `bites.csv` has the columns of a tally sheet. */
export function tallyUnderBites(): Message {
  return {
    code: 'tally-in-bites',
    text: 'The columns are those of a tally sheet, so the rows were read as counts of bites.',
    remedy: 'Nothing to do; a file named tally.csv would need no repair.',
  };
}
