import { nearestWord } from '../base/nearest.ts';
import { type CellReader, plain, repaired, unread } from './cell.ts';
import { cleanText } from './clean-text.ts';
import { blankWord } from './messages-rows.ts';
import { choiceRespelt, choiceUnknown } from './messages-words.ts';

/** For each value of a column that knows a few values only, other words that mean it. */
export type ChoiceWords<T extends string> = Readonly<Record<T, readonly string[]>>;

/** Words for "nothing to say here", where they are no value of the column. */
const NONE = new Set(['none', 'nil', 'no', 'nothing']);

/**
 * Makes the reader of a column that knows a few values only. The value itself is taken as it
 * stands, a spelling or synonym of it as a repair; for anything else the nearest value is named.
 */
export function choiceReader<T extends string>(
  column: string,
  words: ChoiceWords<T>,
): CellReader<T> {
  const values = Object.keys(words) as T[];
  const meaning = new Map<string, T>();
  for (const value of values) {
    meaning.set(choiceKey(value), value);
    for (const word of words[value]) meaning.set(choiceKey(word), value);
  }
  const exact = new Set<string>(values);
  return (text) => {
    if (exact.has(text)) return plain(text as T);
    const bare = cleanText(text);
    const value = meaning.get(choiceKey(bare)) ?? headWord(bare, meaning);
    if (value !== undefined) return repaired(value, choiceRespelt(column, text, value));
    if (NONE.has(choiceKey(bare))) {
      return { value: null, note: { effect: 'repaired', ...blankWord(column, text) } };
    }
    return unread(choiceUnknown({ column, text, values, near: nearestWord(bare, values) }));
  };
}

/**
 * The value of the first words where a remark follows them (`lost - pulled`, `kept (dinner)`), unless
 * the remark is another value itself.
 */
function headWord<T>(text: string, meaning: ReadonlyMap<string, T>): T | undefined {
  const values = remarksOf(text).map((part) => meaning.get(choiceKey(part)));
  const [first, ...others] = values;
  return others.some((value) => value !== undefined && value !== first) ? undefined : first;
}

/** The words of a cell and the remarks behind them: `lost - pulled` is `lost` and `pulled`. */
export function remarksOf(text: string): string[] {
  return text.split(/\s+[-–—]\s+|\s*[(/:,;]\s*/).map((part) => part.replace(/\)$/, ''));
}

/** A word without case, hyphens, underscores and closing marks, spaces single. */
export function choiceKey(text: string): string {
  return text
    .toLowerCase()
    .replace(/[&+]/g, ' and ')
    .replace(/[-_/\s]+/g, ' ')
    .replace(/[.!,;:]+$/, '')
    .trim();
}
