import { type Refusal, refuse } from '../base/estimate.ts';
import { addScaled, at, type Column, dot } from './design-columns.ts';
import { binomialFamily, type Family } from './glm-family.ts';
import { fittedModel } from './glm-fit.ts';
import { type FitData, type Linearised, linearise, type Place, placeAt } from './glm-irls.ts';
import { LINKS } from './glm-link.ts';
import type { FittedModel, ModelData } from './glm-model.ts';
import { type UsedRows, usedRows } from './glm-rows.ts';
import { solveUpper } from './pivoted-qr.ts';
import { cholesky, choleskySolveRows } from './sandwich-block.ts';

const SHORT_STEP = 1e-10;
/** A score this small that no longer shrinks is rounding. */
const ROUNDING_STEP = 1e-7;
const MOST_STEPS = 500;
const MOST_HALVINGS = 30;

/**
 * Logistic regression by Firth's penalised likelihood: the likelihood times the root of the
 * determinant of its own information. Coefficients stay finite when rows are all one way, and lose
 * most of their small-sample bias otherwise.
 * @returns a fitted model with `estimator` "firth"; its covariance is the inverse information at the
 * penalised coefficients, its `logLik` and `aic` leave the penalty out, and `residual` is that of the
 * penalised score, so that cluster covariances match the equations solved.
 * Not fitted for impossible rows, or when the iteration does not settle.
 * Source: Firth 1993, Biometrika 80:27; Heinze & Schemper 2002, Stat Med 21:2409 (separation).
 */
export function fitFirthLogistic(model: ModelData): FittedModel | Refusal {
  const family = binomialFamily(LINKS.logit);
  const used = usedRows(model, family);
  if ('kind' in used) return used;
  const end = settle(used, family);
  if (end === null) return refuse('The penalised fit did not settle on these rows.');
  const fitted = fittedModel(model, family, { used, end: { ...end, state: 'settled' } });
  return { ...fitted, estimator: 'firth', residual: end.residual };
}

interface End {
  readonly coefficients: Column;
  readonly model: Linearised;
  readonly residual: Column;
}

/** Newton steps on the penalised score, halved until they do not lower the penalised likelihood. */
function settle({ data }: UsedRows, family: Family): End | null {
  let place = placeAt(data, family, new Float64Array(data.columns.length));
  let model = linearise(data, family, place);
  let last = Number.POSITIVE_INFINITY;
  for (let round = 0; round < MOST_STEPS; round++) {
    if (model.r.rows < data.columns.length) return null;
    const { residual, score, step } = penalisedStep(data, family, model);
    const length = Math.sqrt(dot(score, score));
    const rounding = length < ROUNDING_STEP && length > 0.9 * last;
    if (length < SHORT_STEP || rounding)
      return { coefficients: place.coefficients, model, residual };
    const next = halved(data, family, { place, model, step });
    if (next === null) return null;
    last = length;
    [place, model] = [next.place, next.model];
  }
  return null;
}

/**
 * The penalised score in the coordinates of the information and the step it asks for. A row's
 * leverage h acts like h more trials with half of them successes.
 */
function penalisedStep(data: FitData, family: Family, model: Linearised) {
  const n = model.q.length;
  const curvature = new Float64Array(n * n);
  const residual = model.pearson.slice();
  for (let row = 0; row < residual.length; row++) {
    const place = model.q.map((column) => at(column, row));
    const leverage = place.reduce((sum, value) => sum + value * value, 0);
    const mean = family.link.mean(at(model.eta, row));
    const root = family.link.slope(at(model.eta, row)) / Math.sqrt(at(model.variance, row));
    residual[row] = at(residual, row) + (leverage * (0.5 - mean)) / root;
    const weight = 1 + leverage / at(data.weight, row);
    for (const [i, a] of place.entries())
      for (const [j, b] of place.entries())
        curvature[i * n + j] = at(curvature, i * n + j) + weight * a * b;
  }
  const score = Float64Array.from(model.q, (direction) => dot(direction, residual));
  const solution = { rows: 1, columns: n, values: score.slice() };
  // The curvature is the identity plus something positive, so that the factor always exists.
  const factor = cholesky(curvature, n, 0);
  if (factor !== null) choleskySolveRows(factor, solution);
  return { residual, score, step: solveUpper(model.r, solution.values) };
}

function halved(
  data: FitData,
  family: Family,
  from: { readonly place: Place; readonly model: Linearised; readonly step: Column },
): { readonly place: Place; readonly model: Linearised } | null {
  const before = penalisedDeviance(from.model);
  let share = 1;
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const tried = from.place.coefficients.slice();
    addScaled(tried, share, from.step);
    const place = placeAt(data, family, tried);
    const model = linearise(data, family, place);
    if (penalisedDeviance(model) <= before + 1e-10 * (1 + Math.abs(before)))
      return { place, model };
    share /= 2;
  }
  return null;
}

/** −2·(log-likelihood + ½·ln det information), up to a constant. */
const penalisedDeviance = ({ deviance, r }: Linearised): number =>
  deviance - 2 * r.diag().reduce((sum, pivot) => sum + Math.log(pivot), 0);
