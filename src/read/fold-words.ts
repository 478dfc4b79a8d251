import { choiceKey } from './cell-choice.ts';
import type { FileLedger } from './ledger-file.ts';
import { wordFolded } from './messages-vocabulary.ts';
import type { Placed } from './rows.ts';

/** A column of words in one file, with the account that notes about it go to. */
export interface WordColumn {
  readonly rows: readonly Placed[];
  readonly column: string;
  readonly ledger: FileLedger;
}

/** How often each word of a column stands in the log. */
export type WordCounts = ReadonlyMap<string, number>;

/**
 * Gives words that differ only in case and spacing (`Mullet`, `mullet`) one spelling over all files
 * of the log: the commonest, the first by code unit where two are equally common, so that the order
 * of rows never matters. Each changed cell is noted as a repair. Returns the words that remain.
 */
export function foldWords(columns: readonly WordColumn[]): WordCounts {
  const counts = new Map<string, number>();
  for (const cell of cellsOf(columns)) counts.set(cell.word, (counts.get(cell.word) ?? 0) + 1);
  const spelling = new Map<string, string>();
  for (const [word, count] of counts) {
    const key = choiceKey(word);
    const best = spelling.get(key);
    const bestCount = best === undefined ? 0 : (counts.get(best) ?? 0);
    if (count > bestCount || (count === bestCount && word < (best ?? ''))) spelling.set(key, word);
  }
  if (spelling.size === counts.size) return counts;
  for (const { word, row, column, ledger } of cellsOf(columns)) {
    const folded = spelling.get(choiceKey(word)) ?? word;
    if (folded === word) continue;
    row[column] = folded;
    const place = { line: row.line, column, received: word };
    ledger.note('repaired', place, wordFolded(column, word, folded));
    counts.set(folded, (counts.get(folded) ?? 0) + 1);
    counts.delete(word);
  }
  return counts;
}

/** Every filled cell of the columns; the rows are still the reader's own and may be written to. */
export function* cellsOf(columns: readonly WordColumn[]) {
  for (const { rows, column, ledger } of columns) {
    for (const row of rows as readonly (Placed & Record<string, unknown>)[]) {
      const word = row[column];
      if (typeof word === 'string') yield { word, row, column, ledger };
    }
  }
}
