import { saysNothing } from './cell.ts';
import { choiceReader, remarksOf } from './cell-choice.ts';
import type { ClockChanges } from './clock-changes.ts';
import { judgeTwin } from './judge-twins.ts';
import * as say from './messages-checks.ts';
import { biteIdTwice } from './messages-trips.ts';
import type { RowCells } from './row-cells.ts';
import type { BiteRow, LostTo } from './rows.ts';
import type { TripIndex } from './trip-index.ts';
import { minuteInTrip, tripHours, tripWindow } from './trip-window.ts';
import { TwinRows } from './twin-rows.ts';
import { LOST_TO_WORDS } from './words-bite.ts';

const readLostTo = choiceReader('lost_to', LOST_TO_WORDS);

/**
 * Judges bites: the same row or number twice, cells that the outcome rules out, a time or a fight
 * that the trip has no room for, a count that is missing or unreadable.
 */
export function biteJudge(cells: RowCells, trips: TripIndex, changes: ClockChanges) {
  const twins = new TwinRows<BiteRow>();
  const numbered = new Map<string, Map<string, BiteRow>>();
  return (row: BiteRow, texts: readonly string[]): BiteRow => {
    const twin = twins.find(row, texts);
    if (twin !== null) judgeTwin(cells, twin.line, row.bite_id !== null || row.time !== null);
    else judgeNumber(row, numbered, cells);
    judgeCount(cells);
    return judgeBesideTrip(judgeOutcome(row, cells), { cells, trips, changes });
  };
}

/** A bite number may stand once in a trip. */
function judgeNumber(row: BiteRow, numbered: Map<string, Map<string, BiteRow>>, cells: RowCells) {
  if (row.bite_id === null) return;
  const ofTrip = numbered.get(row.trip_id) ?? new Map<string, BiteRow>();
  numbered.set(row.trip_id, ofTrip);
  const earlier = ofTrip.get(row.bite_id);
  if (earlier === undefined) ofTrip.set(row.bite_id, row);
  else cells.setAside('bite_id', row.bite_id, biteIdTwice(row.bite_id, earlier.line));
}

/** A count that cannot be read leaves the number of bites open; an empty one stands for the row. */
function judgeCount(cells: RowCells): void {
  if (!cells.has('count')) return;
  const unread = cells.warningOn('count');
  if (unread !== null) cells.setAside('count', unread.received, unread.note);
  else if (isUnsaid(cells.text('count'))) cells.warn('count', say.countEmpty());
}

function isUnsaid(text: string): boolean {
  return text === '' || saysNothing(text);
}

function judgeOutcome(row: BiteRow, cells: RowCells): BiteRow {
  const against: (keyof BiteRow)[] = [];
  if (row.outcome !== 'lost' && row.lost_to !== null) against.push('lost_to');
  if (row.outcome === 'missed' && row.fight_min !== null) against.push('fight_min');
  if (row.outcome === 'missed' && row.hooked_in !== null) against.push('hooked_in');
  const isBack = row.outcome === 'released' || row.outcome === 'kept';
  if (!isBack && row.release_condition !== null) against.push('release_condition');
  if (against.length > 0) return withoutContradictions(row, against, cells);
  if (row.outcome !== 'lost' || row.lost_to !== null || cells.isNoted('lost_to')) return row;
  const text = cells.text('outcome');
  const value = lostToIn(text);
  if (text === 'lost' || value === null) return row;
  cells.note('repaired', { column: 'lost_to', received: text }, say.lostToFromOutcome(text, value));
  return { ...row, lost_to: value };
}

/** How a fish was lost, where the text of the outcome says so. */
function lostToIn(text: string): LostTo | null {
  const found = [text, ...remarksOf(text)].map((part) => readLostTo(part).value);
  return found.find((value) => value !== null) ?? null;
}

function withoutContradictions(row: BiteRow, columns: (keyof BiteRow)[], cells: RowCells): BiteRow {
  const emptied: Partial<Record<keyof BiteRow, null>> = {};
  for (const column of columns) {
    emptied[column] = null;
    // A zero stands for "no fight" where a form wants every cell filled.
    if (column === 'fight_min' && row.fight_min === 0) continue;
    cells.warn(column, say.againstOutcome(column, String(row[column]), row.outcome));
  }
  return { ...row, ...emptied } as BiteRow;
}

function judgeBesideTrip(
  row: BiteRow,
  { cells, trips, changes }: { cells: RowCells; trips: TripIndex; changes: ClockChanges },
): BiteRow {
  const trip = trips.get(row.trip_id);
  if (trip === undefined) return row;
  const window = tripWindow(trip);
  if (row.time !== null) {
    const minute = window === null ? row.time : minuteInTrip(row.time, window);
    const message = changes.check('time', trip.date, minute);
    if (message !== null) cells.warn('time', message);
    if (window !== null && (minute < window.from || minute > window.to)) {
      cells.warn('time', say.biteOutsideTrip(minute, trip));
    }
  }
  const hours = tripHours(trip);
  if (row.fight_min === null || hours === null || row.fight_min <= hours * 60) return row;
  if (changes.near(trip.date) && row.fight_min <= hours * 60 + 60) return row;
  cells.warn('fight_min', say.fightLongerThanTrip(row.fight_min, hours));
  return { ...row, fight_min: null };
}
