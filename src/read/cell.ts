/** What was done to a cell, or why it could not be read. */
export interface CellNote {
  readonly effect: 'repaired' | 'warned';
  /** Stable kebab-case name of the rule. */
  readonly code: string;
  readonly text: string;
  readonly remedy: string;
}

/** The value of one cell (null: not recorded, or unreadable) and what is to be said of it. */
export interface Cell<T> {
  readonly value: T | null;
  readonly note: CellNote | null;
}

/** Turns the trimmed, non-empty text of a cell into its value. Pure, so results may be kept. */
export type CellReader<T> = (text: string) => Cell<T>;

/** A cell that says what it says. */
export function plain<T>(value: T): Cell<T> {
  return { value, note: null };
}

/** A cell read after a stated repair. */
export function repaired<T>(value: T, note: Omit<CellNote, 'effect'>): Cell<T> {
  return { value, note: { effect: 'repaired', ...note } };
}

/** A cell used as it stands, with a warning. */
export function warned<T>(value: T, note: Omit<CellNote, 'effect'>): Cell<T> {
  return { value, note: { effect: 'warned', ...note } };
}

/** A cell that cannot be read; its value counts as not recorded. */
export function unread<T>(note: Omit<CellNote, 'effect'>): Cell<T> {
  return { value: null, note: { effect: 'warned', ...note } };
}

/** The cells of words that say "not recorded" without a value. */
const BLANK_WORDS = new Set([
  '-',
  '--',
  '---',
  '–',
  '—',
  '.',
  '..',
  '?',
  '??',
  'n/a',
  'n.a.',
  'na',
  'null',
  'nan',
  '#n/a',
  '#na',
  '#value!',
  '#ref!',
  '#div/0!',
  '#name?',
  '#num!',
  '#null!',
  'none recorded',
  'not recorded',
  'unrecorded',
  'unknown',
  'unk',
]);

/** Whether a cell says in words that nothing was recorded. */
export function saysNothing(text: string): boolean {
  return text.length <= 13 && BLANK_WORDS.has(text.toLowerCase());
}
