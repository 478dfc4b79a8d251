import { closest, distance } from 'fastest-levenshtein';

/** The known word nearest to a mistyped one, if it is near enough to be meant; else null. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  if (known.length === 0) return null;
  const nearest = closest(word.toLowerCase(), known);
  const allowed = Math.max(1, Math.floor(Math.max(word.length, nearest.length) / 3));
  return slips(word.toLowerCase(), nearest.toLowerCase()) <= allowed ? nearest : null;
}

/** Letters changed, lost or added; two neighbours swapped count as one slip. */
function slips(a: string, b: string): number {
  const at = [...a].findIndex((letter, place) => letter !== b[place]);
  const swapped = a.slice(0, at) + (a[at + 1] ?? '') + (a[at] ?? '') + a.slice(at + 2);
  return at >= 0 && swapped === b ? 1 : distance(a, b);
}

/** ` Did you mean hook_size?`, or nothing. */
export function didYouMean(word: string, known: readonly string[]): string {
  const nearest = nearestWord(word, known);
  return nearest === null ? '' : ` Did you mean ${nearest}?`;
}
