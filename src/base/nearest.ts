import { closest, distance } from 'fastest-levenshtein';

/** The known word nearest to a mistyped one, if it is near enough to be meant; else null. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  if (known.length === 0) return null;
  const nearest = closest(word.toLowerCase(), known);
  const allowed = Math.max(1, Math.floor(Math.max(word.length, nearest.length) / 3));
  return distance(word.toLowerCase(), nearest.toLowerCase()) <= allowed ? nearest : null;
}

/** ` Did you mean hook_size?`, or nothing. */
export function didYouMean(word: string, known: readonly string[]): string {
  const nearest = nearestWord(word, known);
  return nearest === null ? '' : ` Did you mean ${nearest}?`;
}
