import { type Refusal, refuse } from '../base/estimate.ts';
import { addScaled, at, type Column, dot, product } from './design-columns.ts';
import { binomialFamily, type Family } from './glm-family.ts';
import { fittedModel } from './glm-fit.ts';
import { type FitData, linearise, type Place, placeAt, workingRows } from './glm-irls.ts';
import { LINKS } from './glm-link.ts';
import type { FittedModel, ModelData } from './glm-model.ts';
import { quadraticForms, solver, weightedGram, weightedSums } from './glm-normal-equations.ts';
import { type UsedRows, usedRows } from './glm-rows.ts';

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
  const fitted = fittedModel(model, family, { used, end });
  return { ...fitted, estimator: 'firth', residual: end.residual };
}

/** One place with its penalised likelihood, the penalised residuals and the step they ask for. */
interface Penalised {
  readonly place: Place;
  /** −2·(log-likelihood + ½·ln det information), up to a constant. */
  readonly deviance: number;
  readonly residual: Column;
  readonly step: Column;
  /** Of the step, in standard errors. */
  readonly length: number;
}

/** Newton steps on the penalised score, halved until they do not lower the penalised likelihood. */
function settle({ data }: UsedRows, family: Family) {
  let here = penalised(data, family, new Float64Array(data.columns.length));
  let last = Number.POSITIVE_INFINITY;
  for (let round = 0; round < MOST_STEPS && here !== null; round++) {
    const { length, place, residual } = here;
    if (length < SHORT_STEP || (length < ROUNDING_STEP && length > 0.9 * last)) {
      const settled = linearise(data, family, place);
      return settled === null ? null : { ...settled, residual };
    }
    last = length;
    here = stepped(data, family, here);
  }
  return null;
}

/**
 * The penalised score at the given coefficients. A row's leverage h pulls like h more trials with
 * half of them successes, and counts so in the curvature too. null where there is no information.
 */
function penalised(data: FitData, family: Family, coefficients: Column): Penalised | null {
  const place = placeAt(data, family, coefficients);
  const { rootWeight, pearson } = workingRows(data, family, place.eta);
  const weight = product(rootWeight, rootWeight);
  const information = solver(weightedGram(data.sparse, weight), coefficients.length);
  if (information === null) return null;
  const leverage = product(weight, quadraticForms(data.sparse, information.inverse()));
  const residual = pearson.map((value, row) => {
    const pull = at(leverage, row) * (0.5 - family.link.mean(at(place.eta, row)));
    return value + pull / at(rootWeight, row);
  });
  const raised = weight.map((w, row) => w * (1 + at(leverage, row) / at(data.weight, row)));
  const curvature = solver(weightedGram(data.sparse, raised), coefficients.length);
  if (curvature === null) return null;
  const score = weightedSums(data.sparse, product(rootWeight, residual));
  const step = curvature.solve(score);
  const deviance = place.deviance - information.logDeterminant;
  return { place, deviance, residual, step, length: Math.sqrt(Math.max(0, dot(step, score))) };
}

function stepped(data: FitData, family: Family, from: Penalised): Penalised | null {
  const allowed = from.deviance + 1e-10 * (1 + Math.abs(from.deviance));
  let share = 1;
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const tried = from.place.coefficients.slice();
    addScaled(tried, share, from.step);
    const next = penalised(data, family, tried);
    if (next !== null && next.deviance <= allowed) return next;
    share /= 2;
  }
  return null;
}
