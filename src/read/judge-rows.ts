import * as say from './messages-trips.ts';
import type { RowCells } from './row-cells.ts';
import type { BaitBuyRow, BiteRow, SoakRow, SpoolRow, TripRow } from './rows.ts';
import { TwinRows } from './twin-rows.ts';

/** Judges the row at hand beside the rows before it: sets it aside, adds a note, or lets it be. */
export type Judge<Row> = (row: Row, texts: readonly string[]) => void;

/** A trip number may stand once; the row that stands first is the trip. */
export function tripJudge(cells: RowCells): Judge<TripRow> {
  const known = new Map<string, TripRow>();
  const twins = new TwinRows<TripRow>();
  return (row, texts) => {
    const earlier = known.get(row.trip_id);
    const twin = twins.find(row, texts);
    if (twin !== null) cells.setAside(null, row.trip_id, say.duplicateRow(twin.line));
    else if (earlier !== undefined) {
      cells.setAside('trip_id', row.trip_id, say.tripIdTwice(row.trip_id, earlier.line));
    } else known.set(row.trip_id, row);
  };
}

/**
 * A bite number may stand once in a trip. Without numbers, a row that is the same in every cell is
 * a duplicate if a time says so, and else only a likely one: two bites may well be alike.
 */
export function biteJudge(cells: RowCells): Judge<BiteRow> {
  const twins = new TwinRows<BiteRow>();
  const numbered = new Map<string, Map<string, BiteRow>>();
  return (row, texts) => {
    const twin = twins.find(row, texts);
    if (twin !== null) {
      const isCertain = row.bite_id !== null || row.time !== null;
      refuseTwin(cells, twin.line, isCertain);
      return;
    }
    if (row.bite_id === null) return;
    const ofTrip = numbered.get(row.trip_id) ?? new Map<string, BiteRow>();
    numbered.set(row.trip_id, ofTrip);
    const earlier = ofTrip.get(row.bite_id);
    if (earlier === undefined) ofTrip.set(row.bite_id, row);
    else cells.setAside('bite_id', row.bite_id, say.biteIdTwice(row.bite_id, earlier.line));
  };
}

/** A soak that is the same in every cell, its time in among them, was pasted twice. */
export function soakJudge(cells: RowCells): Judge<SoakRow> {
  return twinJudge(cells, (row) => row.time_in !== null);
}

/** Spools and purchases have no time of day, so a second one like the first may be a second one. */
export function purchaseJudge<Row extends SpoolRow | BaitBuyRow>(cells: RowCells): Judge<Row> {
  return twinJudge(cells, () => false);
}

function twinJudge<Row extends BiteRow | SoakRow | SpoolRow | BaitBuyRow>(
  cells: RowCells,
  isCertain: (row: Row) => boolean,
): Judge<Row> {
  const twins = new TwinRows<Row>();
  return (row, texts) => {
    const twin = twins.find(row, texts);
    if (twin !== null) refuseTwin(cells, twin.line, isCertain(row));
  };
}

function refuseTwin(cells: RowCells, line: number, isCertain: boolean): void {
  if (isCertain) cells.setAside(null, '', say.duplicateRow(line));
  else cells.note('warned', { column: null, received: '' }, say.twinRow(line));
}
