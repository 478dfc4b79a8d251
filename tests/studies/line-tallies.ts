import { groupBy } from '../../src/base/group-by.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';
import { type DrawnTrip, monthOf, nameOf, WIND } from './line-trips.ts';
import { LINES } from './line-world.ts';

/**
 * Tallies of drawn trips by line type, reach, bait, month and wind: the same rows that the season
 * built from them would give, at a tenth of the time.
 */
export function talliesOfTrips(trips: readonly DrawnTrip[]): TallyRow[] {
  return trips.flatMap((trip, at) => {
    const cells = groupBy(trip.lines, ({ rig }) => `${rig.braid} ${rig.reach} ${rig.bait}`);
    return [...cells.values()].map((lines): TallyRow => {
      const rig = lines[0]?.rig;
      const bites = lines.reduce((sum, line) => sum + line.bites, 0);
      const hooked = lines.reduce((sum, line) => sum + line.hooked, 0);
      return {
        ...countsOf(bites, hooked),
        line_hours: lines.length * trip.hours,
        effort_rows: lines.length,
        trip_id: nameOf(at),
        line_type: rig?.braid ? LINES[0] : LINES[1],
        reach: rig?.reach ?? '',
        bait: rig?.bait ?? '',
        month: monthOf(trip),
        wind_band: String(WIND[trip.windy ? 'windy' : 'calm'].force),
      };
    });
  });
}

/** The same, one row a trip. */
export function tripTallies(rows: readonly TallyRow[]): TallyRow[] {
  return [...groupBy(rows, (row) => row.trip_id)].map(([trip_id, ofTrip]) => ({
    ...countsOf(
      ofTrip.reduce((sum, row) => sum + row.bites, 0),
      ofTrip.reduce((sum, row) => sum + row.hooked, 0),
    ),
    line_hours: ofTrip.reduce((sum, row) => sum + row.line_hours, 0),
    effort_rows: ofTrip.reduce((sum, row) => sum + row.effort_rows, 0),
    trip_id,
  }));
}

/** Every hooked fish of the studies is caught and released, and every bite met line-hours. */
function countsOf(bites: number, hooked: number) {
  return {
    bites,
    hooked,
    caught: hooked,
    released: hooked,
    kept: 0,
    fights: hooked,
    bites_on_effort: bites,
    hooked_on_effort: hooked,
    caught_on_effort: hooked,
    released_on_effort: hooked,
    assumed_rows: 0,
  };
}
