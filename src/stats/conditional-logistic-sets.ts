import { groupBy } from '../base/group-by.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';

/** Rows of matched sets, column by column; all arrays but `names` have one entry a row. */
export interface MatchedRows {
  /** Names of the covariates, in the order of each row's values. */
  readonly names: readonly string[];
  /** One value a covariate for every row. */
  readonly covariates: readonly (readonly number[])[];
  /** Whether the row is a case (an event). */
  readonly isCase: readonly boolean[];
  /** Which set (trip, pair, stratum) the row belongs to. */
  readonly set: readonly (string | number)[];
}

/** One matched set; covariates are taken from the set's own mean, which changes no comparison. */
export interface MatchedSet {
  readonly covariates: readonly (readonly number[])[];
  readonly isCase: readonly boolean[];
  readonly cases: number;
}

/** What of the data a fit stands on. */
export interface MatchedCount {
  /** Sets with at least one case and one non-case, and their rows. */
  readonly informativeSets: number;
  readonly informativeRows: number;
  readonly setsLeftOut: number;
  readonly rowsLeftOut: number;
}

/**
 * Rows gathered into their sets, in the order met.
 * @throws RangeError when columns differ in length or a covariate is not a finite number.
 */
export function matchedSets({ names, covariates, isCase, set }: MatchedRows): MatchedSet[] {
  if (covariates.length !== isCase.length || covariates.length !== set.length)
    throw new RangeError(
      `Columns differ in length: ${covariates.length} rows of covariates, ${isCase.length} outcomes, ${set.length} sets.`,
    );
  for (const [row, values] of covariates.entries())
    if (values.length !== names.length || !values.every(Number.isFinite))
      throw new RangeError(
        `Row ${row + 1} needs ${names.length} numbers, not ${values.join(', ')}.`,
      );
  const groups = [...groupBy(covariates.keys(), (row) => set[row]).values()];
  return groups.map((rows) => setOf(rows, { covariates, isCase }));
}

/** Whether a set has a case and a non-case; others say nothing about what makes a case. */
export function informs({ cases, isCase }: MatchedSet): boolean {
  return cases > 0 && cases < isCase.length;
}

/** Counts the sets that inform and what the others leave out. */
export function matchedCount(sets: readonly MatchedSet[]): MatchedCount {
  const rowsOf = (some: readonly MatchedSet[]) =>
    some.reduce((sum, { isCase }) => sum + isCase.length, 0);
  const informative = sets.filter(informs);
  return {
    informativeSets: informative.length,
    informativeRows: rowsOf(informative),
    setsLeftOut: sets.length - informative.length,
    rowsLeftOut: rowsOf(sets) - rowsOf(informative),
  };
}

function setOf(
  rows: readonly number[],
  { covariates, isCase }: Pick<MatchedRows, 'covariates' | 'isCase'>,
): MatchedSet {
  const values = rows.map((row) => covariates[row] as readonly number[]);
  const means = (values[0] ?? []).map(
    (_, j) => values.reduce((sum, row) => sum + (row[j] as number), 0) / values.length,
  );
  const members = rows.map((row) => isCase[row] as boolean);
  return {
    covariates: values.map((row) =>
      row.map((value, j) => differenceBeyondRounding(value, means[j] as number)),
    ),
    isCase: members,
    cases: members.filter(Boolean).length,
  };
}
