import type { LogFile } from '../base/files.ts';
import type { Effect, Problem } from '../base/problem.ts';
import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';
import type { FileAccount, ProblemCount, ReadAccount, SetAsideRow } from './season-log.ts';

/** Examples kept of each rule in each file; beyond the first ones only new readings are examples. */
const MOST_EXAMPLES = 200;
const FIRST_EXAMPLES = 100;

/** What one rule said of one file. */
interface Kept extends ProblemCount {
  count: number;
  examples: number;
  /** Texts kept as examples, each once. */
  readonly texts: Set<string>;
}

/** Where in a log a message belongs, and the text it is about. */
export interface Place {
  readonly line: number | null;
  readonly column: string | null;
  readonly received: string;
}

/** The account of a whole import while it is being kept. */
export class Ledger {
  readonly #problems: Problem[] = [];
  readonly #kept = new Map<string, Kept>();
  readonly #setAside: SetAsideRow[] = [];
  readonly #files: { close(): FileAccount }[] = [];

  /** Opens the account of one more file. */
  add(file: { close(): FileAccount }): void {
    this.#files.push(file);
  }

  /** Notes that a rule spoke; beyond a number of examples, what it said before is only counted. */
  note(file: string, effect: Effect, place: Place, message: Message): void {
    const { code, text, remedy } = message;
    const key = `${file}\n${effect}\n${code}`;
    const kept = this.#kept.get(key) ?? {
      file,
      code,
      effect,
      count: 0,
      examples: 0,
      texts: new Set<string>(),
    };
    if (kept.count === 0) this.#kept.set(key, kept);
    kept.count++;
    if (kept.examples >= MOST_EXAMPLES) return;
    if (kept.examples >= FIRST_EXAMPLES && kept.texts.has(text)) return;
    kept.examples++;
    kept.texts.add(text);
    const received = shownText(place.received);
    const { line, column } = place;
    this.#problems.push({ effect, code, file, line, column, received, text, remedy });
  }

  /** Keeps a row that may not be used. */
  setAside(row: SetAsideRow): void {
    this.#setAside.push(row);
  }

  /**
   * Closes the account. Throws where the rows of a file do not add up, which is a mistake of this
   * program and never of the log.
   */
  close(): ReadAccount {
    const setAside = new Map<LogFile, number>();
    for (const row of this.#setAside) setAside.set(row.file, (setAside.get(row.file) ?? 0) + 1);
    const files = this.#files.map((file) => file.close());
    for (const { file, path, rowsRead, rowsUsed, rowsSetAside } of files) {
      const isWhole = rowsRead === rowsUsed + rowsSetAside;
      if (!isWhole || rowsSetAside !== (setAside.get(file) ?? 0)) {
        throw new Error(
          `${path}: ${rowsRead} rows read, but ${rowsUsed} used and ${rowsSetAside} set aside.`,
        );
      }
    }
    const problemCounts = [...this.#kept.values()].map(({ file, code, effect, count }) => {
      return { file, code, effect, count };
    });
    return { files, problems: this.#problems, problemCounts, setAside: this.#setAside };
  }
}
