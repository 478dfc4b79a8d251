import { distance } from 'fastest-levenshtein';

/**
 * The known word nearest to a mistyped one, or null where none is near enough to be worth naming:
 * at most one slip in four letters (and at least one slip allowed), case and separators ignored.
 * Ties go to the word that stands first.
 */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  const wanted = bare(word);
  const allowed = Math.max(1, Math.floor(wanted.length / 4));
  let best: string | null = null;
  let bestSlips = allowed + 1;
  for (const candidate of known) {
    const slips = distance(wanted, bare(candidate));
    if (slips < bestSlips) {
      best = candidate;
      bestSlips = slips;
    }
  }
  return best;
}

/** A word without case, spaces and separators, so that `Hook Size` and `hook_size` are alike. */
function bare(word: string): string {
  return word.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '');
}
