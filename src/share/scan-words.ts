import type { IdentifyingText } from './identifying-values.ts';
import { foldedWords, foldText, lettersWithin, numbersIn, placedWords } from './scan-fold.ts';

/** A text of the log met in something that is about to leave. */
export interface MetText {
  readonly value: IdentifyingText;
  /** Line of the text, from 1. */
  readonly line: number;
}

/** Texts of a log, made ready to be looked for in many files. */
export class TextSearch {
  /** By first word: what may begin with it. */
  readonly #byFirst = new Map<
    string,
    { readonly value: IdentifyingText; readonly words: readonly string[] }[]
  >();
  /** By digits alone, whatever stands between them. */
  readonly #byDigits = new Map<string, IdentifyingText>();
  /** Texts without a letter or digit, by themselves. */
  readonly #signs: IdentifyingText[] = [];

  constructor(values: readonly IdentifyingText[]) {
    for (const value of values) {
      const words = foldedWords(value.text);
      const joined = words.join('');
      if (joined === '') this.#signs.push(value);
      else if (/^\p{N}+$/u.test(joined)) this.#byDigits.set(joined, value);
      else {
        this.#add(value, words);
        // A file name or an address runs a name's words together.
        if (words.length > 1 && joined.length >= LEAST_JOINED) this.#add(value, [joined]);
      }
    }
  }

  /** Every value that a text holds, with the first line it stands on. */
  meet(text: string): MetText[] {
    const met = new Map<IdentifyingText, number>();
    const note = (value: IdentifyingText, line: number) => {
      met.set(value, Math.min(line, met.get(value) ?? line));
    };
    this.#meetWords(text, note);
    for (const [at, raw] of text.split(/\r\n|\r|\n/).entries()) {
      const line = foldText(raw);
      for (const digits of this.#byDigits.size === 0 ? [] : numbersIn(line)) {
        const value = this.#byDigits.get(digits);
        if (value !== undefined) note(value, at + 1);
      }
      for (const value of this.#signs) if (line.includes(foldText(value.text))) note(value, at + 1);
    }
    return [...met].map(([value, line]) => ({ value, line }));
  }

  #meetWords(text: string, note: (value: IdentifyingText, line: number) => void): void {
    const words = placedWords(text);
    for (const [at, { word, line }] of words.entries()) {
      for (const { value, words: wanted } of this.#byFirst.get(word) ?? []) {
        if (wanted.every((one, offset) => words[at + offset]?.word === one)) note(value, line);
      }
      for (const run of lettersWithin(word)) {
        const whole = (this.#byFirst.get(run) ?? []).filter((phrase) => phrase.words.length === 1);
        for (const { value } of whole) note(value, line);
      }
    }
  }

  #add(value: IdentifyingText, words: readonly string[]): void {
    const [first = ''] = words;
    this.#byFirst.set(first, [...(this.#byFirst.get(first) ?? []), { value, words }]);
  }
}

/** Shorter names run together are as likely an ordinary word. */
const LEAST_JOINED = 5;
