import type { Problem } from '../base/problem.ts';
import type { BiteRow } from '../read/rows.ts';
import type { ReadAccount } from '../read/season-log.ts';
import type { FilledCell } from './filled-cells.ts';

/** Examples kept; the rest is counted. */
const MOST_EXAMPLES = 200;
const CODE = 'bite-and-soak-disagree';

/** Collects what came up when rows were joined. */
export class JoinWarnings {
  readonly #examples: Problem[] = [];
  #count = 0;

  add(problem: () => Problem): void {
    this.#count += 1;
    if (this.#examples.length < MOST_EXAMPLES) this.#examples.push(problem());
  }

  /** The reader's account with these warnings in it. */
  joinedTo(account: ReadAccount): ReadAccount {
    const [first] = this.#examples;
    if (first === undefined) return account;
    const { file, effect, code } = first;
    return {
      ...account,
      problems: [...account.problems, ...this.#examples],
      problemCounts: [...account.problemCounts, { file, effect, code, count: this.#count }],
    };
  }
}

/** A bite says one thing of a cell and its soak another: the bite’s own word stands. */
export function disagreement(
  bite: BiteRow,
  cell: FilledCell,
  found: {
    readonly own: string | number;
    readonly lent: string | number;
    readonly soakLine: number;
  },
): Problem {
  return {
    effect: 'warned',
    code: CODE,
    file: 'bites.csv',
    line: bite.line,
    column: cell,
    received: String(found.own),
    text:
      `The bite says ${cell} ${found.own}, the soak it came on (soaks.csv line ${found.soakLine}) ` +
      `says ${found.lent}. The bite’s own word stands, and it is left out of figures per ` +
      `line-hour by ${cell}.`,
    remedy: 'Correct whichever of the two cells is wrong.',
  };
}
