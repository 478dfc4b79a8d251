import { formatCount } from './format-number.ts';

/**
 * A count with its noun in the right number: `0 bites`, `1 bite`, `2,013 bites`.
 *
 * @param many the plural where it is not the noun with an s: `fish`, `boxes`.
 */
export function plural(count: number, noun: string, many = `${noun}s`): string {
  return `${formatCount(count)} ${count === 1 ? noun : many}`;
}

/**
 * Words joined as a sentence joins them: `mullet`, `mullet and scad`, `mullet, scad and 3 others`.
 *
 * @param most how many are named before the rest are counted; at least 1.
 */
export function listWords(words: readonly string[], most = Number.POSITIVE_INFINITY): string {
  const left = words.length - most;
  const parts = left > 1 ? [...words.slice(0, most), `${formatCount(left)} others`] : [...words];
  const last = parts.pop();
  if (last === undefined) return '';
  return parts.length === 0 ? last : `${parts.join(', ')} and ${last}`;
}

/** The same words with a capital first letter, for the head of a sentence or a table. */
export function sentenceCase(words: string): string {
  const [first = '', ...rest] = words;
  return first.toUpperCase() + rest.join('');
}

/** A level as it stands in a log (`port-long`) with its case kept and its underscores gone. */
export function levelWords(level: string): string {
  return level.replace(/_/g, ' ');
}

/**
 * Text from a log made safe to set: control characters, which no page may hold, become U+FFFD;
 * line breaks and tabs become spaces.
 */
export function printable(text: string): string {
  return text
    .replace(/[\t\n\r\u2028\u2029]+/g, ' ')
    .replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, '\ufffd');
}
