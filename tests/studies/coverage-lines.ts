import { type Cover, shareCovered } from './coverage-count.ts';
import { BITES_PER_TRIP, SETTINGS, TRIPS } from './coverage-worlds.ts';

/** How often one figure's interval held the truth in one kind of season. */
export interface CoverLine extends Cover {
  readonly figure: string;
  readonly setting: string;
  readonly bitesPerTrip: number;
  readonly trips: number;
  readonly seed: number;
}

const COLUMNS = [
  'figure',
  'setting',
  'bitesPerTrip',
  'trips',
  'seed',
  'intervals',
  'none',
  'covered',
  'tooLow',
  'tooHigh',
] as const satisfies readonly (keyof CoverLine)[];

/** The lines as CSV; names of figures and settings hold no commas. */
export function linesToCsv(lines: readonly CoverLine[]): string {
  const rows = lines.map((line) => COLUMNS.map((column) => line[column]).join(','));
  return `${[COLUMNS.join(','), ...rows].join('\n')}\n`;
}

/** Reads back what `linesToCsv` wrote. */
export function linesFromCsv(text: string): CoverLine[] {
  const [, ...rows] = text.trim().split('\n');
  return rows.map((row) => {
    const [figure = '', setting = '', ...numbers] = row.split(',');
    const [bitesPerTrip, trips, seed, intervals, none, covered, tooLow, tooHigh] = numbers.map(
      Number,
    ) as [number, number, number, number, number, number, number, number];
    const counts = { intervals, none, covered, tooLow, tooHigh };
    return { figure, setting, bitesPerTrip, trips, seed, ...counts };
  });
}

/** What a nominal 95 % interval must hold from 30 trips on, in %. */
export const WANTED = { least: 93, most: 97.5, fromTrips: 30 };

/** One figure as a table: settings down, trips across, % of intervals that held the truth. */
export function coverTable(lines: readonly CoverLine[], figure: string): string {
  const rows = SETTINGS.flatMap(({ name }) =>
    BITES_PER_TRIP.map((bites) => {
      const cells = TRIPS.map((trips) => {
        const line = lines.find(
          (one) =>
            one.figure === figure &&
            one.setting === name &&
            one.bitesPerTrip === bites &&
            one.trips === trips,
        );
        return line === undefined ? '' : cellOf(line);
      });
      return `| ${[name, bites, ...cells].join(' | ')} |`;
    }),
  );
  const heads = TRIPS.map((trips) => `${trips} trips`);
  return [
    `| season | bites a trip | ${heads.join(' | ')} |`,
    `| --- | --- | ${heads.map(() => '---').join(' | ')} |`,
    ...rows,
  ].join('\n');
}

/** `95.3`, in bold where more is wanted; with the share of seasons that gave no interval, if any. */
function cellOf(line: CoverLine): string {
  if (line.intervals === 0) return 'none';
  const percent = 100 * shareCovered(line);
  const shown = percent.toFixed(1);
  const isShort = line.trips >= WANTED.fromTrips && percent < WANTED.least;
  const without = (100 * line.none) / (line.none + line.intervals);
  const none = without >= 1 ? ` (none: ${without.toFixed(0)})` : '';
  return (isShort ? `**${shown}**` : shown) + none;
}

/** Standard error of a share held, in percentage points, where 95 % is the truth. */
export function monteCarloError(intervals: number): number {
  return 100 * Math.sqrt((0.95 * 0.05) / intervals);
}
