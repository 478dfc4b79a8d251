/** The files of a season log, in the order they are read. */
export const LOG_FILES = [
  'trips.csv',
  'soaks.csv',
  'bites.csv',
  'spools.csv',
  'bait-buys.csv',
] as const;

/** A sheet of counts per trip, for boats that tally instead of writing bite by bite. */
export const TALLY_FILE = 'tally.csv';

/** One of the files of a season log. */
export type LogFile = (typeof LOG_FILES)[number] | typeof TALLY_FILE;
