import { distance } from 'fastest-levenshtein';
import { choiceKey } from './cell-choice.ts';
import { cellsOf, type WordColumn, type WordCounts } from './fold-words.ts';
import { wordNearAnother, wordNotListed } from './messages-vocabulary.ts';

/** More different words than this are no vocabulary, and comparing them all would take long. */
const MOST_WORDS = 400;
/** A slip of the pen is rare beside the word it stands for; one or two need less of a crowd. */
const TIMES_RARER = 10;
const TIMES_RARER_ONCE = 2;

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

/**
 * Slips between two texts, or null where they are two: by word, so that `east bank` is not near
 * `west bank`; never where figures tell them apart (`rod 1`, `rod 2`).
 */
function slipsApart(a: string, b: string): number | null {
  if (Math.max(a.length, b.length) > 40) return null;
  if (a.replace(/\d+/g, '') === b.replace(/\d+/g, '')) return null;
  const [ours, theirs] = [a.split(' '), b.split(' ')];
  // Two words run together (`goggleeye`), or one cut in two.
  if (ours.length !== theirs.length) {
    return a.replaceAll(' ', '') === b.replaceAll(' ', '') ? 1 : null;
  }
  let sum = 0;
  for (const [at, word] of ours.entries()) {
    const slips = slipsInWord(word, theirs[at] ?? '');
    if (slips === null) return null;
    sum += slips;
  }
  return sum <= 2 ? sum : null;
}

/**
 * Slips between two words, or null where they are too many for their length. A short word is another
 * one as soon as a letter is (`scad`, `shad`), but not where one was doubled, left out or swapped.
 */
function slipsInWord(a: string, b: string): number | null {
  if (a === b) return 0;
  const shorter = Math.min(a.length, b.length);
  if (shorter < 4 || /\d/.test(a + b) || Math.abs(a.length - b.length) > 2) return null;
  if (isSwapped(a, b)) return 1;
  const apart = distance(a, b);
  if (apart === 1 && a.length === b.length && shorter < 6) return null;
  return apart <= (shorter >= 8 ? 2 : 1) ? apart : null;
}

/** Whether two neighbouring letters have changed places: `mulelt`. */
function isSwapped(a: string, b: string): boolean {
  const at = [...a].findIndex((letter, place) => letter !== b[place]);
  return at >= 0 && `${a.slice(0, at)}${a[at + 1] ?? ''}${a[at] ?? ''}${a.slice(at + 2)}` === b;
}
