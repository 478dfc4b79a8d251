/** A word of a text, with the line it stands on. */
export interface FoldedWord {
  readonly word: string;
  readonly line: number;
}

/** A run this long of nothing but hexadecimal digits is a checksum or a pseudonym, and holds no name. */
const HASH = /^[0-9a-f]{20,}$/;

/**
 * A text in the form in which texts are compared: one spelling for letters that look alike in
 * full width, with accents put on one way or another, in capitals, or with marks between them that
 * nobody sees.
 * Source: Unicode Standard Annex 15 (compatibility decomposition).
 */
export function foldText(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[\p{M}\p{Cf}]+/gu, '')
    .toUpperCase()
    .toLowerCase();
}

/** Words of a text, folded: unbroken runs of letters and digits. */
export function foldedWords(text: string): string[] {
  return foldText(text).match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** The same with the line of each, lines counted from 1. */
export function placedWords(text: string): FoldedWord[] {
  return text
    .split(/\r\n|\r|\n/)
    .flatMap((line, at) => foldedWords(line).map((word) => ({ word, line: at + 1 })));
}

/** Runs of letters within a word that has digits too: `quillandra2024` holds a name. */
export function lettersWithin(word: string): string[] {
  if (HASH.test(word)) return [];
  const runs = word.match(/\p{L}+/gu) ?? [];
  return runs.filter((run) => run !== word);
}

/**
 * Numbers in a line of folded text: each run of digits, and runs with signs between them joined into
 * one, as telephone numbers stand. One point in a number is a decimal point.
 */
export function numbersIn(folded: string): string[] {
  const text = folded.replace(/[\p{L}\p{N}]+/gu, (word) => (HASH.test(word) ? ' ' : word));
  const spaced = text.match(/\p{N}+(?:[-/_: .]\p{N}+)+/gu) ?? [];
  const joined = spaced.filter((run) => !/^\p{N}+\.\p{N}+$/u.test(run));
  return [...(text.match(/\p{N}+/gu) ?? []), ...joined.map((run) => run.replace(/\P{N}/gu, ''))];
}
