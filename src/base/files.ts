/** The files of a season log, in the order they are read. */
export const LOG_FILES = [
  'trips.csv',
  'soaks.csv',
  'bites.csv',
  'spools.csv',
  'bait-buys.csv',
] as const;

/** One of the five files of a season log. */
export type LogFile = (typeof LOG_FILES)[number];
