import { type Cell, type CellNote, type CellReader, saysNothing } from './cell.ts';
import { isBlank } from './clean-text.ts';
import type { HeaderPlan } from './header-plan.ts';
import type { Message } from './messages-cells.ts';
import { blankWord, cellTooLong, requiredMissing } from './messages-rows.ts';

/** A note about a cell of the row at hand, kept until it is known whether the row is used. */
export interface PendingNote {
  readonly column: string | null;
  readonly received: string;
  readonly note: CellNote;
}

/** Why the row at hand may not be used. */
export interface PendingAside {
  readonly column: string | null;
  readonly received: string;
  readonly message: Message;
}

const BLANK: Cell<never> = { value: null, note: null };
/** Results kept per column: enough for every word of a season, and a bound for a hostile one. */
const MOST_KEPT = 20_000;
const LONGEST_CELL = 500;
const LONGEST_TEXT = 20_000;

/** How the cells of one column are to be treated. */
interface ColumnOptions {
  /** Nearly every row has another text, so results are not worth keeping. */
  readonly distinct?: boolean;
  /** Free text, which may be long. */
  readonly long?: boolean;
}

/**
 * The cells of one row at a time, read by column. Made once for a file: `optional` and `required`
 * bind a column to its reader and return a function that reads the cell of the row at hand.
 */
export class RowCells {
  line = 0;
  notes: PendingNote[] = [];
  aside: PendingAside | null = null;
  /** The row at hand was mended by hand and dropped back in, beside the file itself. */
  isReturned = false;
  #texts: readonly string[] = [];
  readonly #plan: HeaderPlan;

  constructor(plan: HeaderPlan) {
    this.#plan = plan;
  }

  /** Takes up a row. */
  load(line: number, texts: readonly string[], isReturned = false): void {
    this.isReturned = isReturned;
    this.line = line;
    this.#texts = texts;
    this.notes = [];
    this.aside = null;
  }

  /** The text of a column in the row at hand, trimmed; empty where the file has no such column. */
  text(column: string): string {
    return (this.#texts[this.#plan.indexOf.get(column) ?? -1] ?? '').trim();
  }

  /** Reads an optional column: null where it is empty, absent or unreadable. */
  optional<T>(column: string, read: CellReader<T>, options: ColumnOptions = {}): () => T | null {
    const index = this.#plan.indexOf.get(column);
    return index === undefined ? () => null : this.optionalAt({ index, column }, read, options);
  }

  /** Reads the cell at a place in the row; `column` is the name that notes use. */
  optionalAt<T>(
    { index, column }: { readonly index: number; readonly column: string },
    read: CellReader<T>,
    options: ColumnOptions = {},
  ): () => T | null {
    const cellOf = kept(boundedReader(column, read, options), options);
    return () => {
      const raw = this.#texts[index];
      if (raw === undefined || raw === '') return null;
      const cell = cellOf(raw);
      if (cell.note !== null) this.notes.push({ column, received: raw, note: cell.note });
      return cell.value;
    };
  }

  /**
   * Reads a required column; a row without a readable value there is set aside. `values` are those
   * it may have, where they are few.
   */
  required<T>(
    column: string,
    read: CellReader<T>,
    standIn: T,
    values: readonly string[] = [],
  ): () => T {
    const value = this.optional(column, read);
    return () => {
      const before = this.notes.length;
      const found = value();
      if (found !== null) return found;
      const [note] = this.notes.splice(before);
      const received = note?.received ?? '';
      const isUnread = note?.note.effect === 'warned';
      this.setAside(
        column,
        received,
        isUnread ? note.note : requiredMissing({ column, received, values }),
      );
      return standIn;
    };
  }

  /** Whether the file has a column. */
  has(column: string): boolean {
    return this.#plan.indexOf.has(column);
  }

  /** Whether something was already said of a column in the row at hand. */
  isNoted(column: string): boolean {
    return this.notes.some((note) => note.column === column);
  }

  /** The warning about a column in the row at hand, or null. */
  warningOn(column: string): PendingNote | null {
    return (
      this.notes.find((note) => note.column === column && note.note.effect === 'warned') ?? null
    );
  }

  /** Warns about a column of the row at hand. */
  warn(column: string | null, message: Message): void {
    const received = column === null ? '' : this.text(column);
    this.note('warned', { column, received }, message);
  }

  /** Sets the row at hand aside; the first reason found stands. */
  setAside(column: string | null, received: string, message: Message): void {
    this.aside ??= { column, received, message };
  }

  /** Notes something about the row at hand. */
  note(effect: CellNote['effect'], place: { column: string | null; received: string }, m: Message) {
    const { code, text, remedy } = m;
    this.notes.push({ ...place, note: { effect, code, text, remedy } });
  }
}

function boundedReader<T>(column: string, read: CellReader<T>, options: ColumnOptions) {
  const longest = options.long ? LONGEST_TEXT : LONGEST_CELL;
  return (raw: string): Cell<T> => {
    const text = raw.trim();
    if (isBlank(text)) return BLANK;
    if (text.length > longest) {
      const note: CellNote = { effect: 'warned', ...cellTooLong(column, text.length, longest) };
      return options.long ? { ...read(text.slice(0, longest)), note } : { value: null, note };
    }
    if (saysNothing(text))
      return { value: null, note: { effect: 'repaired', ...blankWord(column, text) } };
    return read(text);
  };
}

/** Keeps results by text, so that each spelling is read, and its value held, only once. */
function kept<T>(read: (raw: string) => Cell<T>, options: ColumnOptions) {
  if (options.distinct) return read;
  const known = new Map<string, Cell<T>>();
  return (raw: string): Cell<T> => {
    const found = known.get(raw);
    if (found !== undefined) return found;
    const cell = read(raw);
    if (known.size < MOST_KEPT) known.set(raw, cell);
    return cell;
  };
}
