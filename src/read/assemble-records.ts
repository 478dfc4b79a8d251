import { quoteState } from './quote-state.ts';
import { splitIrregular } from './split-irregular.ts';

/** One record of a file: the lines it spans, and its text or, where mended, its cells. */
export interface Assembled {
  readonly line: number;
  readonly lastLine: number;
  /** Text that follows the rules of CSV, or the raw text of lines that cannot be split. */
  readonly text: string;
  /** The cells, where quotes out of place were read with judgement; null otherwise. */
  readonly cells: readonly string[] | null;
  /** A quote was opened and never closed, or the quotes make no sense. */
  readonly broken: boolean;
}

/** What the assembler must know of the table to tell a sound row from a broken one. */
export interface RowShape {
  readonly delimiter: string;
  /** Number of cells in the header; null while the header is being looked for. */
  readonly width: number | null;
  /** Splits a line that follows the rules of CSV. */
  readonly split: (text: string) => readonly string[];
  /** Whether cells hold what the required columns of this file must hold. */
  readonly isRow: (cells: readonly string[]) => boolean;
}

/** More than any note needs, so that a forgotten quote cannot swallow memory. */
const MOST_LINES = 2000;
const MOST_CHARACTERS = 16 * 1024 * 1024;
const MOST_LINES_OF_HEADER = 50;

/**
 * Puts physical lines together to records. A quoted cell may run over several lines; where a quote
 * is opened and never closed, the record is given up at the next line that is a sound row by
 * itself, so that one forgotten quote costs one row and not the rest of the file.
 */
export class RecordAssembler {
  /** Lines without any text met so far. */
  blankLines = 0;
  readonly #shape: RowShape;
  #out: Assembled[] = [];
  #open: string[] = [];
  #openLine = 0;
  #openCharacters = 0;
  #line: number;
  /** Lines given back to be read afresh, the next one last. */
  #again: { text: string; line: number }[] = [];

  /** `firstLine` is the number of the first line that will be taken. */
  constructor(shape: RowShape, firstLine: number) {
    this.#shape = shape;
    this.#line = firstLine;
  }

  /** Takes lines and gives the records that they complete. */
  take(lines: readonly string[]): Assembled[] {
    for (const line of lines) {
      this.#takeLine(line, this.#line);
      this.#readAgain();
      this.#line++;
    }
    return this.#flush();
  }

  /** Gives what is left at the end of the file. */
  finish(): Assembled[] {
    while (this.#open.length > 0) {
      this.#giveUp();
      this.#readAgain();
    }
    return this.#flush();
  }

  #readAgain(): void {
    for (let next = this.#again.pop(); next !== undefined; next = this.#again.pop()) {
      this.#takeLine(next.text, next.line);
    }
  }

  #flush(): Assembled[] {
    const out = this.#out;
    this.#out = [];
    return out;
  }

  #takeLine(text: string, line: number): void {
    if (this.#open.length > 0) this.#continue(text, line);
    else this.#begin(text, line);
  }

  #begin(text: string, line: number): void {
    if (!text.includes('"')) {
      if (text.trim() === '') this.blankLines++;
      else this.#out.push({ line, lastLine: line, text, cells: null, broken: false });
      return;
    }
    const { delimiter, width } = this.#shape;
    const state = quoteState(text, delimiter, false);
    if (state.open) {
      this.#open = [text];
      this.#openLine = line;
      this.#openCharacters = text.length;
      return;
    }
    const cells = state.regular ? null : splitIrregular(text, delimiter, width);
    const broken = !state.regular && cells === null;
    this.#out.push({ line, lastLine: line, text, cells, broken });
  }

  #continue(text: string, line: number): void {
    if (this.#isSoundAlone(text)) {
      this.#again.push({ text, line });
      this.#giveUp();
      return;
    }
    this.#open.push(text);
    this.#openCharacters += text.length + 1;
    const state = quoteState(text, this.#shape.delimiter, true);
    if (state.open && !this.#isTooLong()) return;
    const record = this.#open.join('\n');
    if (!state.open && state.regular && this.#isSoundRecord(record)) {
      const start = this.#openLine;
      this.#out.push({ line: start, lastLine: line, text: record, cells: null, broken: false });
      this.#open = [];
      return;
    }
    this.#giveUp();
  }

  /** Sets the open lines down as broken up to the first that may begin a row, and reads on there. */
  #giveUp(): void {
    const lines = this.#open;
    const first = this.#openLine;
    this.#open = [];
    let next = 1;
    while (next < lines.length && !this.#mayBeginRow(lines[next] ?? '')) next++;
    this.#out.push({
      line: first,
      lastLine: first + next - 1,
      text: lines.slice(0, next).join('\n'),
      cells: null,
      broken: true,
    });
    for (let at = lines.length - 1; at >= next; at--) {
      this.#again.push({ text: lines[at] ?? '', line: first + at });
    }
  }

  #isTooLong(): boolean {
    const most = this.#shape.width === null ? MOST_LINES_OF_HEADER : MOST_LINES;
    return this.#open.length > most || this.#openCharacters > MOST_CHARACTERS;
  }

  /** A row of full width that needs nothing of the lines before it. */
  #isSoundAlone(text: string): boolean {
    const { width, split } = this.#shape;
    return width !== null && this.#mayBeRow(text) && split(text).length === width;
  }

  /** A line that holds what a row must hold, though cells at its end may be missing. */
  #mayBeRow(text: string): boolean {
    const { delimiter, width, split, isRow } = this.#shape;
    if (width === null || !text.includes(delimiter)) return false;
    const state = quoteState(text, delimiter, false);
    if (state.open || !state.regular) return false;
    const cells = split(text);
    return cells.length <= width && isRow(cells);
  }

  /** A line that may be a row, or that opens a quote after all that a row must hold. */
  #mayBeginRow(text: string): boolean {
    const { delimiter, split, isRow } = this.#shape;
    if (this.#mayBeRow(text)) return true;
    const { openAt } = quoteState(text, delimiter, false);
    return openAt !== null && openAt > 0 && isRow(split(text.slice(0, openAt - delimiter.length)));
  }

  #isSoundRecord(record: string): boolean {
    const { width, split, isRow } = this.#shape;
    if (width === null) return true;
    const cells = split(record);
    if (cells.length === width) return true;
    return (
      cells.length < width && isRow(cells) && !this.#open.slice(1).some((l) => this.#mayBeRow(l))
    );
  }
}
