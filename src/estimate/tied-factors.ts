import { groupBy } from '../base/group-by.ts';
import { listWords } from '../base/words.ts';
import { factorWords, levelPlace, sameLevelWords } from '../tally/factor-words.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import { type Compared, type Contrast, eventsAndUnits } from './level-pairs.ts';

/** How much of A and of B was fished at each level of another factor. */
export interface CrossTable {
  readonly covariate: FactorName;
  readonly rows: readonly CrossRow[];
}

export interface CrossRow {
  readonly level: string;
  /** Bites, hooked fish or line-hours: the measure's denominator. */
  readonly a: number;
  readonly b: number;
}

/** Who fished where: the units of A and B at every level of a covariate. */
export function crossTable(
  rows: readonly TallyRow[],
  contrast: Contrast,
  covariate: FactorName,
): CrossTable {
  const [a, b] = contrast.levels;
  const groups = groupBy(rows, (row) => row[covariate] ?? '');
  const table = [...groups].map(([level, ofLevel]) => ({
    level,
    a: unitsOf(ofLevel, contrast, a),
    b: unitsOf(ofLevel, contrast, b),
  }));
  return { covariate, rows: table.filter((row) => row.a > 0 || row.b > 0) };
}

/**
 * Whether A and B never meet at any level of the covariate, so that a difference between them
 * cannot be told from a difference between its levels. False while one of the two is not there.
 */
export function isTied({ rows }: CrossTable): boolean {
  const some = rows.some((row) => row.a > 0) && rows.some((row) => row.b > 0);
  return some && rows.every((row) => row.a === 0 || row.b === 0);
}

/**
 * Whether no two of the levels meet at any level of the covariate: the same for two levels or more.
 * @param rows rows of the compared levels that have units
 */
export function isTiedAmong(
  rows: readonly TallyRow[],
  { factor }: Compared,
  covariate: FactorName,
): boolean {
  const met = new Map<string, string>();
  for (const row of rows) {
    const [at, level] = [row[covariate] ?? '', row[factor] ?? ''];
    if ((met.get(at) ?? level) !== level) return false;
    met.set(at, level);
  }
  return new Set(met.values()).size > 1;
}

function unitsOf(rows: readonly TallyRow[], { factor, measure }: Contrast, level: string): number {
  return rows
    .filter((row) => row[factor] === level)
    .reduce((sum, row) => sum + eventsAndUnits(row, measure).units, 0);
}

/** Says that the levels were never fished at one level of the covariate. */
export function tiedReason({ factor, levels }: Compared, covariate: FactorName): string {
  const places = levels.map((level) => levelPlace(factor, level));
  return (
    `What was fished ${listWords(places)} was never fished ${sameLevelWords(covariate)}: ` +
    `the ${factorWords(factor)} and the ${factorWords(covariate)} are tied together.`
  );
}
