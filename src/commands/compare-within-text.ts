import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatCount } from '../base/format-number.ts';
import { jointTestText } from '../decide/joint-test-words.ts';
import { countedWords } from '../decide/together-sentence.ts';
import { MANY_TABLES, withinSentence } from '../decide/within-sentence.ts';
import {
  type DifferenceWithin,
  isThinWithin,
  type WithinLevel,
} from '../estimate/difference-within.ts';
import type { Contrast } from '../estimate/level-pairs.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords } from '../tally/factor-words.ts';
import { levelName } from '../write/pages/level-words.ts';
import { textTable } from '../write/text-table.ts';

/** Whether the answer differs by reach and by wind: a table each, and one warning. */
export function withinText(
  tables: readonly DifferenceWithin[],
  contrast: Contrast,
  level: number,
): string {
  if (tables.length === 0) return '';
  const texts = tables.map((table) => tableText(table, contrast, level));
  const warning = tables.some(({ rows }) => rows.length > 0) ? [MANY_TABLES] : [];
  return [...texts, ...warning].join('\n\n');
}

function tableText(table: DifferenceWithin, contrast: Contrast, level: number): string {
  const { measure, levels } = contrast;
  const share = isProportion(measure);
  const [a, b] = levels.map((one) => levelName(contrast.factor, one));
  const right = (head: string) => ({ head, align: 'right' as const });
  const counted = countedWords(measure).unit;
  const columns = [
    { head: factorWords(table.by), align: 'left' as const },
    right(share ? 'difference' : 'times as many'),
    right(`${counted}, ${a}`),
    right(`${counted}, ${b}`),
  ];
  const body = table.rows.map((row) => [
    levelName(table.by, row.level),
    figureOf(row, share),
    formatCount(row.a.bites),
    formatCount(row.b.bites),
  ]);
  const notes = table.dropped.map(
    ({ covariate, reason }) => `${factorWords(covariate)}: ${reason}`,
  );
  return [
    withinSentence(table, { measure, level }),
    ...(body.length === 0 ? [] : [textTable(columns, body)]),
    ...new Set(notes),
    ...(table.refused === null
      ? [`Joint test that the answer is the same everywhere: ${jointTestText(table.test)}`]
      : []),
  ].join('\n');
}

function figureOf(row: WithinLevel, share: boolean): string {
  if (isThinWithin(row)) return 'too little';
  return figureText(share ? row.difference : row.ratio, share ? POINTS : TIMES).short;
}
