import { UserError } from '../base/problem.ts';
import { cleanText } from './clean-text.ts';
import type { HeaderPlan } from './header-plan.ts';
import { judgeTwin } from './judge-twins.ts';
import * as say from './messages-tally.ts';
import type { RowCells } from './row-cells.ts';
import { type BiteRow, OUTCOMES, type Placed } from './rows.ts';
import type { TableColumns } from './table-columns.ts';
import type { TripIndex } from './trip-index.ts';
import { isSameRow, TwinRows } from './twin-rows.ts';
import { OUTCOME_WORDS } from './words-outcome.ts';

/** One row of a tally sheet: the bites it counts, one entry for each outcome and bait. */
export interface TallyRow extends Placed {
  readonly trip_id: string;
  readonly bites: readonly BiteRow[];
}

/** The three forms of a tally sheet; see the columns of `tally.csv`. */
type TallyForm = 'outcomes-across' | 'baits-across' | 'one-count';

/** Columns of a tally sheet that are baits, in the form with baits across; else none. */
export function baitColumns(plan: HeaderPlan): readonly number[] {
  if (plan.file !== 'tally.csv' || formOf(plan) !== 'baits-across') return [];
  return plan.columns.flatMap(({ header, meaning }, index) =>
    meaning === null && header !== '' ? [index] : [],
  );
}

/**
 * Binds the columns of a tally sheet; the result reads the row at hand into bites with a count.
 * Throws a `UserError` (exit code 3) where the sheet has nothing to count.
 */
export function tallyReader(columns: TableColumns, trips: TripIndex): () => TallyRow {
  const { cells } = columns;
  const common = commonReader(columns, trips);
  const counts = countReaders(columns);
  return () => {
    const row = common();
    let isCounted = false;
    const bites = counts.flatMap(({ column, outcome, bait, count }): BiteRow[] => {
      const kind = outcome();
      const number = count();
      const unread = cells.warningOn(column);
      if (unread !== null) cells.setAside(column, unread.received, unread.note);
      isCounted ||= number !== null;
      if (number === null || number === 0 || kind === null) return [];
      return [{ ...row, outcome: kind, bait: bait() ?? row.bait, count: number }];
    });
    if (!isCounted) cells.warn(null, say.tallyEmpty());
    return { line: row.line, trip_id: row.trip_id, bites };
  };
}

/** A trip is either tallied or written bite by bite; both would count its bites twice. */
export function tallyJudge(cells: RowCells, bites: readonly BiteRow[]) {
  const written = new Set(bites.map((bite) => bite.trip_id));
  const twins = new TwinRows<TallyRow>(
    (a, b) =>
      a.bites.length === b.bites.length && a.bites.every((bite, i) => isSame(bite, b.bites[i])),
  );
  return (row: TallyRow, texts: readonly string[]): TallyRow => {
    const twin = twins.find(row, texts);
    if (twin !== null) judgeTwin(cells, twin.line, false);
    if (written.has(row.trip_id)) {
      cells.setAside('trip_id', row.trip_id, say.tripWrittenAndTallied(row.trip_id));
    }
    return row;
  };
}

function isSame(a: BiteRow, b: BiteRow | undefined): boolean {
  return b !== undefined && isSameRow(a, b);
}

function formOf(plan: HeaderPlan): TallyForm {
  const has = (column: string) => plan.indexOf.has(column);
  if (has('outcome') && has('count')) return 'one-count';
  if (has('outcome') && !has('bait') && plan.columns.some((c) => c.meaning === null && c.header)) {
    return 'baits-across';
  }
  if (!has('outcome') && OUTCOMES.some(has)) return 'outcomes-across';
  throw new UserError(say.tallyWithoutCounts(plan.name), 3);
}

function commonReader(columns: TableColumns, trips: TripIndex): () => BiteRow {
  const { cells } = columns;
  const read = {
    trip_id: cells.required('trip_id', trips.reader('tally'), ''),
    position: columns.position('position'),
    bait: columns.listed('bait'),
    rod: columns.word('rod'),
    line_type: columns.listed('line_type'),
    line_class_lb: columns.number('line_class_lb'),
    hook_size: columns.hookSize('hook_size'),
    leader_lb: columns.number('leader_lb'),
    species: columns.listed('species'),
    angler: columns.word('angler'),
    notes: columns.notes(),
  };
  return () => ({
    ...NO_SINGLE_BITE,
    line: cells.line,
    trip_id: read.trip_id(),
    position: read.position(),
    bait: read.bait(),
    rod: read.rod(),
    line_type: read.line_type(),
    line_class_lb: read.line_class_lb(),
    hook_size: read.hook_size(),
    leader_lb: read.leader_lb(),
    species: read.species(),
    angler: read.angler(),
    notes: read.notes(),
  });
}

/** What a tally cannot say of a single bite. */
const NO_SINGLE_BITE = {
  outcome: 'missed',
  count: 0,
  bite_id: null,
  time: null,
  lost_to: null,
  fight_min: null,
  drop_back_s: null,
  hooked_in: null,
  release_condition: null,
  length_cm: null,
  weight_kg: null,
} as const;

interface CountReader {
  readonly column: string;
  readonly outcome: () => BiteRow['outcome'] | null;
  readonly bait: () => string | null;
  readonly count: () => number | null;
}

function countReaders(columns: TableColumns): readonly CountReader[] {
  const { plan } = columns;
  const form = formOf(plan);
  if (form === 'outcomes-across') {
    return OUTCOMES.filter((outcome) => plan.indexOf.has(outcome)).map((outcome) => ({
      column: outcome,
      outcome: () => outcome,
      bait: () => null,
      count: columns.number(outcome),
    }));
  }
  const outcome = columns.requiredChoice('outcome', OUTCOME_WORDS, 'missed');
  if (form === 'one-count') {
    return [{ column: 'count', outcome, bait: () => null, count: columns.number('count') }];
  }
  return baitColumns(plan).map((index) => {
    const header = cleanText(plan.columns[index]?.header ?? '');
    const bait = columns.listedWord('bait', header);
    return { column: header, outcome, bait: () => bait, count: columns.countAt(index, header) };
  });
}
