import type { Vocabulary } from '../settings/settings.ts';
import { type CellReader, plain, repaired } from './cell.ts';
import { choiceKey } from './cell-choice.ts';
import { cleanText } from './clean-text.ts';
import { wordRespelt } from './messages-vocabulary.ts';

/** A word as the crew wrote it: cleaned, nothing else changed. */
export const readWord: CellReader<string> = (text) => plain(cleanText(text));

/** Free text, line breaks kept, other control characters dropped. */
export const readText: CellReader<string> = (text) =>
  plain(text.replace(/\r\n?/g, '\n').replace(/[^\P{Cc}\n\t]/gu, ''));

/**
 * Makes the reader of a column with a vocabulary of its own: each spelling the settings list (case
 * and spacing aside) becomes its canonical word. Words that are not listed stay as they are; near
 * spellings are only pointed out later, never merged.
 */
export function vocabularyReader(column: string, vocabulary: Vocabulary): CellReader<string> {
  const canonical = new Map<string, string>();
  for (const [word, spellings] of Object.entries(vocabulary)) {
    for (const spelling of spellings) canonical.set(choiceKey(spelling), word);
  }
  // A word's own name is never a spelling of another one.
  for (const word of Object.keys(vocabulary)) canonical.set(choiceKey(word), word);
  return (text) => {
    const bare = cleanText(text);
    const word = canonical.get(choiceKey(bare));
    if (word === undefined || word === bare) return plain(bare);
    return repaired(word, wordRespelt(column, text, word));
  };
}
