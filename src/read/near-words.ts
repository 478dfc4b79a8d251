import { distance } from 'fastest-levenshtein';
import { choiceKey } from './cell-choice.ts';
import { cellsOf, type WordColumn, type WordCounts } from './fold-words.ts';
import { wordNearAnother, wordNotListed } from './messages-vocabulary.ts';

/** More different words than this are no vocabulary, and comparing them all would take long. */
const MOST_WORDS = 400;
/** A slip of the pen is rare beside the word it stands for; one or two need less of a crowd. */
const TIMES_RARER = 20;
const TIMES_RARER_ONCE = 4;

/**
 * Points out words that may be slips for another (`mulet` once, `mullet` a hundred times) and, where
 * the settings list the words of the column, those that are not listed. Nothing is merged: whether
 * two baits are one is for the crew to say, in the settings.
 */
export function pointOutWords(
  columns: readonly WordColumn[],
  counts: WordCounts,
  listed: readonly string[],
): void {
  const slips = likelySlips(counts, new Set(listed));
  const isListed = new Set(listed);
  for (const { word, row, column, ledger } of cellsOf(columns)) {
    const place = { line: row.line, column, received: word };
    const near = slips.get(word);
    if (near !== undefined) ledger.note('warned', place, wordNearAnother(column, word, near));
    else if (isListed.size > 0 && !isListed.has(word)) {
      ledger.note('warned', place, wordNotListed(column, word));
    }
  }
}

function likelySlips(counts: WordCounts, listed: ReadonlySet<string>): Map<string, string> {
  const slips = new Map<string, string>();
  const words = [...new Set([...counts.keys(), ...listed])].sort();
  if (words.length > MOST_WORDS) return slips;
  for (const word of counts.keys()) {
    if (listed.has(word)) continue;
    const count = counts.get(word) ?? 0;
    const crowd = count * (count > 2 ? TIMES_RARER : TIMES_RARER_ONCE);
    let nearest = Number.POSITIVE_INFINITY;
    for (const other of words) {
      const isCommoner = (counts.get(other) ?? 0) >= crowd;
      if (other === word || !(isCommoner || listed.has(other))) continue;
      const apart = slipsApart(choiceKey(word), choiceKey(other));
      if (apart === null || apart >= nearest) continue;
      nearest = apart;
      slips.set(word, other);
    }
  }
  return slips;
}

/** Slips between two words, or null where they are two words: short, far apart, or numbered. */
function slipsApart(a: string, b: string): number | null {
  const shorter = Math.min(a.length, b.length);
  if (shorter < 4 || shorter > 40 || Math.abs(a.length - b.length) > 2) return null;
  if (a.replace(/\d+/g, '') === b.replace(/\d+/g, '')) return null;
  const apart = distance(a, b);
  return apart <= (shorter >= 8 ? 2 : 1) ? apart : null;
}
