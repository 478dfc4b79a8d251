import type { BiteRow } from '../../src/read/rows.ts';
import type { Position, Reach } from '../../src/settings/settings.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';

/** Columns of a reference case, one value a soak. */
export interface SoakColumns {
  readonly trip: readonly number[];
  readonly reach: readonly string[];
  /** One month where the case has none. */
  readonly month?: readonly string[];
  readonly bait?: readonly string[];
  readonly line?: readonly string[];
  /** Hours out; 1 where the case has none. */
  readonly hours?: readonly number[];
  readonly bites: readonly number[];
  /** All bites are missed where the case has none. */
  readonly hooked?: readonly number[];
}

/**
 * The season whose soaks these are, by way of a log in memory. Soaks of one trip on one reach take
 * positions of their own, so that each bite meets its soak.
 */
export function seasonOfColumns(columns: SoakColumns): TidySeason {
  const { trip, month, reach } = columns;
  const months = new Map(trip.map((id, at) => [id, month?.[at] ?? '2031-01']));
  const positions = new Map<string, Position>();
  const soaks = trip.map((id, at) => {
    const name = `line ${at} ${reach[at]}`;
    positions.set(name, { name, side: 'port', reach: reach[at] as Reach });
    return {
      trip_id: `T${id}`,
      position: name,
      bait: columns.bait?.[at] ?? null,
      line_type: columns.line?.[at] ?? null,
      hours: columns.hours?.[at] ?? 1,
    };
  });
  const bites = soaks.flatMap(({ trip_id, position }, at) => {
    const hooked = columns.hooked?.[at] ?? 0;
    const rows: Pick<BiteRow, 'outcome' | 'count'>[] = [
      { outcome: 'released', count: hooked },
      { outcome: 'missed', count: (columns.bites[at] ?? 0) - hooked },
    ];
    return rows.filter(({ count }) => count > 0).map((row) => ({ ...row, trip_id, position }));
  });
  return tidySeason(
    makeLog({
      settings: { positions: [...positions.values()] },
      trips: [...months].map(([id, of], at) => ({
        trip_id: `T${id}`,
        date: `${of}-${String(1 + (at % 28)).padStart(2, '0')}`,
      })),
      soaks,
      bites,
    }),
  );
}
