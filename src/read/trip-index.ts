import { type CellReader, plain, repaired, unread } from './cell.ts';
import { choiceKey } from './cell-choice.ts';
import { cleanText } from './clean-text.ts';
import { type OfTrip, tripIdRespelt, tripUnknown } from './messages-trips.ts';
import type { TripRow } from './rows.ts';

/** The trips of a log by number, for the rows that belong to them. */
export class TripIndex {
  readonly #trips: ReadonlyMap<string, TripRow>;
  /** Folded number → trip; null where two trips fold to one. */
  readonly #byFold = new Map<string, TripRow | null>();

  constructor(trips: readonly TripRow[]) {
    this.#trips = new Map(trips.map((trip) => [trip.trip_id, trip]));
    for (const trip of trips) {
      const fold = foldedId(trip.trip_id);
      this.#byFold.set(fold, this.#byFold.has(fold) ? null : trip);
    }
  }

  /** The trip of this number. */
  get(tripId: string): TripRow | undefined {
    return this.#trips.get(tripId);
  }

  /**
   * The reader of `trip_id` in the other files. A number that differs from a trip's only in case,
   * spacing or leading zeros (a spreadsheet makes 7 of 007) is that trip's, if only one fits.
   * `what` names the row in messages.
   */
  reader(what: OfTrip): CellReader<string> {
    return (text) => {
      const bare = cleanText(text);
      const exact = this.#trips.get(bare);
      if (exact !== undefined) return plain(exact.trip_id);
      const alike = this.#byFold.get(foldedId(bare));
      if (alike === undefined || alike === null) return unread(tripUnknown(what, text));
      return repaired(alike.trip_id, tripIdRespelt(text, alike.trip_id));
    };
  }
}

function foldedId(id: string): string {
  const key = choiceKey(id).replace(/ /g, '');
  return key.replace(/^(\D*)0+(?=\d)/, '$1').replace(/^(\d+)\.0+$/, '$1');
}
