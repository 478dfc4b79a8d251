import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, pick } from './design-columns.ts';
import { type Family, isBinomial } from './glm-family.ts';
import type { FitData } from './glm-irls.ts';
import type { ModelData } from './glm-model.ts';
import { sparseRows } from './glm-normal-equations.ts';
import { type PivotedQr, pivotedQr } from './pivoted-qr.ts';

/** The rows of a model that carry weight, and the columns that stand on their own among them. */
export interface UsedRows {
  readonly rows: readonly number[];
  readonly trials: Column;
  readonly prior: Column;
  readonly columns: PivotedQr;
  readonly data: FitData;
}

/**
 * Picks the rows that carry weight, checks them and sets aliased columns aside.
 * Not fitted when no row carries weight or a value is impossible (negative, more successes than
 * trials, not a number): the row and the value are named.
 */
export function usedRows(model: ModelData, family: Family): UsedRows | Refusal {
  const size = model.design.rows;
  const one = { length: size };
  const trials = model.trials ?? Array.from(one, () => 1);
  const weights = model.weights ?? Array.from(one, () => 1);
  const offset = model.offset ?? new Float64Array(size);
  const rows = Array.from(one, (_, row) => row).filter(
    (row) => at(trials, row) * at(weights, row) !== 0,
  );
  const complete = { ...model, trials, weights, offset };
  for (const row of rows) {
    const reason = faultOf(row, complete, family);
    if (reason !== null) return refuse(reason);
  }
  if (rows.length === 0) return refuse('No row of the log carries any weight in this model.');
  const all = model.design.columns.map((column) => pick(column, rows));
  const columns = pivotedQr(all);
  if (columns.kept.length === 0) return refuse('No column of the model holds anything but zeros.');
  const kept = columns.kept.map((place) => all[place] as Column);
  const used = { trials: pick(trials, rows), prior: pick(weights, rows) };
  const counts = pick(model.y, rows);
  const y = isBinomial(family) ? counts.map((value, row) => value / at(used.trials, row)) : counts;
  const data: FitData = {
    columns: kept,
    sparse: sparseRows(kept),
    y,
    weight: used.trials.map((value, row) => value * at(used.prior, row)),
    offset: pick(offset, rows),
  };
  return { rows, ...used, columns, data };
}

type Complete = ModelData & Required<Pick<ModelData, 'trials' | 'weights' | 'offset'>>;

/** What is impossible about a row, as a sentence, or null. */
function faultOf(row: number, model: Complete, family: Family): string | null {
  const y = at(model.y, row);
  const trials = at(model.trials, row);
  const place = () => `Row ${row + 1} of the model`;
  if (!(trials > 0 && Number.isFinite(trials)) || !(at(model.weights, row) > 0))
    return `${place()} has ${trials} trials and weight ${at(model.weights, row)}; both must be above 0.`;
  if (!Number.isFinite(at(model.offset, row)))
    return `${place()} has no usable exposure, so it cannot enter a rate.`;
  if (!Number.isFinite(y) || (y < 0 && family.name !== 'gaussian'))
    return `${place()} has the response ${y}, which is no count.`;
  if (isBinomial(family) && y > trials) return `${place()} has ${y} successes in ${trials} trials.`;
  const { columns, names } = model.design;
  for (let column = 0; column < columns.length; column++)
    if (!Number.isFinite(at(columns[column] as Column, row)))
      return `${place()} has no number for "${names[column]}".`;
  return null;
}
