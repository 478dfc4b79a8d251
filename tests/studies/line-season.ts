import type { BiteRow } from '../../src/read/rows.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';
import { makeLog } from '../helpers/make-log.ts';
import { type DrawnTrip, monthOf, nameOf, WIND } from './line-trips.ts';
import { LINES } from './line-world.ts';

/** Drawn trips as a log in memory, as the reader would hand it on. */
export function logOfTrips(trips: readonly DrawnTrip[]): SeasonLog {
  return makeLog({
    trips: trips.map((trip, at) => ({
      trip_id: nameOf(at),
      date: dateOf(trip, at, trips.length),
      wind_kn: WIND[trip.windy ? 'windy' : 'calm'].knots,
    })),
    soaks: trips.flatMap(({ hours, lines }, at) =>
      lines.map(({ position, rig }) => ({
        trip_id: nameOf(at),
        position,
        hours,
        bait: rig.bait,
        line_type: rig.braid ? LINES[0] : LINES[1],
      })),
    ),
    bites: trips.flatMap(bitesOf),
  });
}

/** Bites of one line as two rows that stand for several each: hooked and missed. */
function bitesOf({ lines }: DrawnTrip, at: number) {
  return lines.flatMap(({ position, bites, hooked }) => {
    const row = { trip_id: nameOf(at), position };
    const rows: (typeof row & Pick<BiteRow, 'outcome' | 'count'>)[] = [
      { ...row, outcome: 'released', count: hooked },
      { ...row, outcome: 'missed', count: bites - hooked },
    ];
    return rows.filter(({ count }) => count > 0);
  });
}

/** Trips stand in their order within each month. */
function dateOf(trip: DrawnTrip, at: number, trips: number): string {
  const day = 1 + Math.floor((28 * at) / trips);
  return `${monthOf(trip)}-${String(day).padStart(2, '0')}`;
}
