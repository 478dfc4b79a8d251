import type { SharedPackage } from './shared-package.ts';

/** What became of columns that could point to somebody, alone or together. */
export interface ColumnFate {
  readonly columns: string;
  readonly became: string;
}

/** Every kind of column of a log, and what a package holds of it. */
export function columnFates({ choices, content }: SharedPackage): ColumnFate[] {
  const isCells = content.tier === 'cells';
  return [
    {
      columns: 'names of clients and crew, notes, rods, sources of bait, columns of the log’s own',
      became: 'left out',
    },
    { columns: 'named grounds', became: 'left out: the name of a ground is the mark' },
    {
      columns: 'latitude, longitude, depth',
      became: `grid cell of ${choices.gridDeg} degree or larger; depth left out`,
    },
    {
      columns: 'dates, and clock times of lines and bites',
      became: isCells
        ? `${choices.period}; clock times left out`
        : 'week, month or quarter; clock times left out',
    },
    {
      columns: 'trip and bite ids',
      became: isCells ? 'left out' : 'trips: a keyed pseudonym; bites: left out',
    },
    {
      columns: 'vessel',
      became: isCells
        ? 'a count in each row; one keyed pseudonym in the descriptor, against double counting'
        : 'a keyed pseudonym',
    },
    { columns: 'hours', became: isCells ? 'summed, to a tenth' : 'whole hours' },
    { columns: 'species', became: 'a code of three letters' },
    { columns: 'wind', became: isCells ? 'left out' : 'one of three groups, or left out' },
    {
      columns:
        'bait, line, hook, leader, position, drop-back, lengths, weights, sea, sky, kind of trip',
      became: 'left out',
    },
  ];
}
