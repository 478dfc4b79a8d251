import { dayNumber } from '../base/zone.ts';
import { dateFarOff } from './messages-checks.ts';
import type { ReadTable } from './read-file.ts';
import type { TripRow } from './rows.ts';

/** A season's trips lie closer together than this; a lone one further off has a wrong year. */
const FAR_DAYS = 400;

/** Warns about a trip whose date lies over a year away from that of every other trip. */
export function pointOutFarDates({ rows, ledger }: ReadTable<TripRow>): void {
  const dates = [...new Set(rows.map((trip) => trip.date))].sort();
  if (dates.length < 3) return;
  const places = new Map(dates.map((date, at) => [date, at]));
  for (const trip of rows) {
    const at = places.get(trip.date) ?? 0;
    const neighbours = [dates[at - 1], dates[at + 1]].filter((date) => date !== undefined);
    const days = (date: string) => Math.abs(dayNumber(date) - dayNumber(trip.date));
    const [nearest] = neighbours.sort((a, b) => days(a) - days(b));
    if (nearest === undefined || days(nearest) <= FAR_DAYS) continue;
    const place = { line: trip.line, column: 'date', received: trip.date };
    ledger.note('warned', place, dateFarOff(trip.date, nearest));
  }
}
