import type { Problem } from '../base/problem.ts';
import type { BiteRow } from '../read/rows.ts';
import type { FilledCell } from './filled-cells.ts';

/** A bite says one thing of a cell and its soak another: the bite's own word stands. */
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
    code: 'bite-and-soak-disagree',
    file: 'bites.csv',
    line: bite.line,
    column: cell,
    received: String(found.own),
    text:
      `The bite says ${cell} ${found.own}, the soak it came on (soaks.csv line ${found.soakLine}) ` +
      `says ${found.lent}. The bite's own word stands, and it is left out of figures per ` +
      `line-hour by ${cell}.`,
    remedy: 'Correct whichever of the two cells is wrong.',
  };
}
