import type { Refusal } from '../base/estimate.ts';
import { negativeBinomialFamily, poissonFamily } from './glm-family.ts';
import { fitRows } from './glm-fit.ts';
import { irls } from './glm-irls.ts';
import type { FittedModel, ModelData, SeparatedModel } from './glm-model.ts';
import { type UsedRows, usedRows } from './glm-rows.ts';
import {
  type CountsAtMeans,
  scoreAtPoisson,
  thetaAtMeans,
  thetaDerivatives,
  thetaStart,
} from './negative-binomial-theta.ts';

/** A negative binomial (NB2) model of counts: variance = mean + mean²/θ. */
export interface NegativeBinomialModel {
  readonly kind: 'negative-binomial';
  /**
   * Coefficients and everything covariances need, at the estimated θ; the Poisson model itself where
   * θ is infinite. Its `aic` counts θ.
   */
  readonly model: FittedModel;
  /** Infinity: the counts vary no more than Poisson. It depends on the unit that is counted. */
  readonly theta: number;
  /** From the observed information at fixed means, rows independent; null where θ is infinite. */
  readonly thetaStandardError: number | null;
  /** The Poisson model of the same rows, to stand beside it. */
  readonly poisson: FittedModel;
  /** Slope of the log-likelihood by 1/θ at the Poisson model. */
  readonly scoreAtPoisson: number;
}

/** Above this θ no count tells the distribution from Poisson. */
const AS_GOOD_AS_POISSON = 1e7;
const MOST_ROUNDS = 200;
const SETTLED = 1e-12;

/**
 * Fits an NB2 log-linear model by maximum likelihood, θ and coefficients together: from the best θ
 * of a wide grid, in turn θ at fixed means and coefficients at fixed θ, until θ stands still.
 * @param model counts with ln(exposure) as offset
 * @returns as `fitGlm` where the Poisson model cannot be fitted (separated, impossible rows)
 * Source: Lawless 1987, Can J Statist 15:209; Venables & Ripley 2002, MASS, §7.4 (from memory).
 */
export function fitNegativeBinomial(
  model: ModelData,
): NegativeBinomialModel | SeparatedModel | Refusal {
  const used = usedRows(model, poissonFamily());
  if ('kind' in used) return used;
  const poisson = fitRows(model, poissonFamily(), { used });
  if (poisson.kind !== 'fitted') return poisson;
  const counts = { y: poisson.y, mean: poisson.fitted, weight: poisson.prior };
  const score = scoreAtPoisson(counts);
  const limit: NegativeBinomialModel = {
    kind: 'negative-binomial',
    model: poisson,
    theta: Number.POSITIVE_INFINITY,
    thetaStandardError: null,
    poisson,
    scoreAtPoisson: score,
  };
  const start = thetaStart(counts);
  if (score <= 0 && start.logLik <= (poisson.logLik ?? 0)) return limit;
  const fitted = alternate(model, poisson, { used, start: start.theta });
  if (fitted.kind !== 'fitted') return fitted.kind === 'poisson' ? limit : fitted;
  const logLik = fitted.model.logLik ?? Number.NEGATIVE_INFINITY;
  if (logLik < (poisson.logLik ?? 0)) return limit;
  return { ...limit, ...fitted, kind: 'negative-binomial' };
}

type Alternated =
  | { readonly kind: 'poisson' }
  | (Pick<NegativeBinomialModel, 'model' | 'theta' | 'thetaStandardError'> & {
      readonly kind: 'fitted';
    });

function alternate(
  data: ModelData,
  poisson: FittedModel,
  { used, start }: { readonly used: UsedRows; readonly start: number },
): Alternated | SeparatedModel | Refusal {
  let counts: CountsAtMeans = { y: poisson.y, mean: poisson.fitted, weight: poisson.prior };
  let coefficients = poisson.coefficients;
  let theta = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = thetaAtMeans(counts, theta);
    if (next > AS_GOOD_AS_POISSON) return { kind: 'poisson' };
    const still = Math.abs(Math.log(next / theta)) < SETTLED;
    theta = next;
    if (still) break;
    const family = negativeBinomialFamily(theta);
    const end = irls(used.data, family, { start: coefficients, watchEdge: false });
    if (end.state !== 'settled') break;
    coefficients = end.coefficients;
    counts = { ...counts, mean: end.model.eta.map(Math.exp) };
  }
  const family = negativeBinomialFamily(theta);
  const model = fitRows(data, family, { used, start: coefficients });
  if (model.kind !== 'fitted') return model;
  const { information } = thetaDerivatives({ ...counts, mean: model.fitted }, theta);
  return {
    kind: 'fitted',
    model: { ...model, aic: model.aic === null ? null : model.aic + 2 },
    theta,
    thetaStandardError: information > 0 ? 1 / Math.sqrt(information) : null,
  };
}
