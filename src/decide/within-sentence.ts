import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import type { DifferenceWithin, WithinLevel } from '../estimate/difference-within.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords, levelPlace } from '../tally/factor-words.ts';
import type { Measure } from '../tally/measures.ts';

/** What stands beside every such table. */
export const MANY_TABLES =
  'The more such tables are looked at, the more often one shows a difference that is not there: ' +
  'take it as a question for the next trips, not as an answer.';

/** Whether a difference is the same at every level of something else; no p-value. */
export function withinSentence(
  { by, rows, test, refused }: DifferenceWithin,
  { measure, level }: { readonly measure: Measure; readonly level: number },
): string {
  const name = factorWords(by);
  if (refused !== null) return `Whether the answer differs by ${name} cannot be told. ${refused}`;
  if (test.kind === 'not-estimable') {
    return `Whether the answer differs by ${name} is shown, not tested.`;
  }
  const ends = extremes(rows, measure);
  if (test.p > 1 - level || ends === null) {
    return (
      `There is no sign that the answer differs by ${name}: luck alone may set figures as far ` +
      'apart as these.'
    );
  }
  const [least, most] = ends.map((row) => `${gap(row, measure)} ${levelPlace(by, row.level)}`);
  return `It looks as if the answer differs by ${name}: from ${least} to ${most}.`;
}

/** The levels with the least and the greatest figure; null where fewer than two have one. */
function extremes(
  rows: readonly WithinLevel[],
  measure: Measure,
): readonly [WithinLevel, WithinLevel] | null {
  const known = rows
    .flatMap((row) => {
      const figure = isProportion(measure) ? row.difference : row.ratio;
      return figure.kind === 'estimated' ? [{ row, value: figure.estimate }] : [];
    })
    .sort((a, b) => a.value - b.value);
  const [first, last] = [known[0], known.at(-1)];
  return first === undefined || last === undefined || known.length < 2
    ? null
    : [first.row, last.row];
}

function gap(row: WithinLevel, measure: Measure): string {
  if (isProportion(measure)) return figureText(row.difference, POINTS).long;
  const { value, interval } = figureText(row.ratio, TIMES);
  return `${value} times as many (${interval})`;
}
