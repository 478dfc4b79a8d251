import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, combine, dot, total } from './design-columns.ts';
import type { Design } from './design-matrix.ts';
import { isBinomial } from './glm-family.ts';
import type { FittedModel } from './glm-model.ts';

/** An average over rows of predictions, and how it moves with each coefficient. */
export interface AverageMean {
  readonly kind: 'average';
  /** Average predicted probability, or events per unit of exposure (offset 0). */
  readonly mean: number;
  /** 1 − mean, without loss (for probabilities). */
  readonly rest: number;
  /** Derivative of the mean by each coefficient of the model. */
  readonly gradient: Column;
  /** Average linear predictor without offset, and its derivative (the average row). */
  readonly link: number;
  readonly averageRow: Column;
}

/** Entries of a new row may differ from what its other entries imply by this, beside their size. */
const SAME = 1e-6;

/**
 * Predicts every row of a design and averages, on the scale of the response and of the link.
 * @param rows the rows to predict, from `withLevel` or `designFor`
 * @param weights one for each of these rows, e.g. its bites or line-hours; not all 0
 * @returns refused when a row asks for a column that was aliased and here breaks its tie, so that
 * the prediction would be invented
 */
export function averageMean(
  model: FittedModel,
  rows: Design,
  weights: ArrayLike<number>,
): AverageMean | Refusal {
  const broken = brokenTie(model, rows, weights);
  if (broken !== null)
    return refuse(
      `The log never shows ${broken} apart from the other columns, so it cannot be predicted.`,
    );
  const whole = total(weights);
  const share = new Float64Array(rows.rows);
  for (let row = 0; row < share.length; row++) share[row] = at(weights, row) / whole;
  const columns = model.kept.map((place) => rows.columns[place] as Column);
  const eta = combine(columns, model.coefficients, rows.rows);
  const { link } = model.family;
  const averaged = (of: (eta: number) => number): Column => {
    const parts = new Float64Array(share.length);
    for (let row = 0; row < parts.length; row++) parts[row] = at(share, row) * of(at(eta, row));
    return parts;
  };
  const pull = averaged(link.slope);
  return {
    kind: 'average',
    mean: total(averaged(link.mean)),
    rest: total(averaged(link.rest)),
    gradient: Float64Array.from(columns, (column) => dot(pull, column)),
    link: dot(share, eta),
    averageRow: Float64Array.from(columns, (column) => dot(share, column)),
  };
}

/** The first aliased column that in some weighted row is not what the kept columns imply. */
function brokenTie(model: FittedModel, rows: Design, weights: ArrayLike<number>): string | null {
  const kept = new Set(model.kept);
  const aliased = rows.names.map((_, place) => place).filter((place) => !kept.has(place));
  for (const [index, place] of aliased.entries()) {
    const tie = Float64Array.from(model.kept, (_, row) => model.alias.get(row, index));
    const columns = model.kept.map((column) => rows.columns[column] as Column);
    const implied = combine(columns, tie, rows.rows);
    const actual = rows.columns[place] as Column;
    const size = 1 + Math.max(...actual.map(Math.abs));
    const breaks = implied.some(
      (value, row) => at(weights, row) !== 0 && Math.abs(value - at(actual, row)) > SAME * size,
    );
    if (breaks) return rows.names[place] as string;
  }
  return null;
}

/**
 * Weights that make an average run over the log's own bites (binomial families: trials) or its own
 * exposure (log link: exp(offset)), times prior weights; rows left aside by the fit weigh 0.
 */
export function ownMix(model: FittedModel): Column {
  const weights = new Float64Array(model.design.rows);
  const binomial = isBinomial(model.family);
  for (const [place, row] of model.rows.entries()) {
    const exposure = model.family.link.name === 'log' ? Math.exp(at(model.offset, place)) : 1;
    weights[row] = at(model.prior, place) * (binomial ? at(model.trials, place) : exposure);
  }
  return weights;
}
