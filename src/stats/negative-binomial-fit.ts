import type { Refusal } from '../base/estimate.ts';
import type { Column } from './design-columns.ts';
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
  thetaLogLik,
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
/** To choose a start, coefficients need not be nearer than this many standard errors. */
const START_STEP = 0.1;
/** On the way up they are at least so near. */
const ROUGH_STEP = 1e-3;
/** On the way, coefficients at one θ are made this much finer than the last move of θ. */
const FINER = 1e-2;
const FINEST_STEP = 1e-11;
/** Furthest ln θ goes beyond what the means ask for. */
const LONGEST_JUMP = 1;

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
  const start = bestStart(used, counts, poisson.coefficients);
  const least = poisson.logLik ?? Number.NEGATIVE_INFINITY;
  if (start === null || (score <= 0 && start.logLik <= least)) return limit;
  const end = climb(used, start);
  if (end === null) return limit;
  const fitted = fitRows(model, negativeBinomialFamily(end.theta), {
    used,
    start: end.coefficients,
  });
  if (fitted.kind !== 'fitted') return fitted;
  if ((fitted.logLik ?? least) < least) return limit;
  const { information } = thetaDerivatives({ ...counts, mean: fitted.fitted }, end.theta);
  return {
    ...limit,
    model: { ...fitted, aic: fitted.aic === null ? null : fitted.aic + 2 },
    theta: end.theta,
    thetaStandardError: information > 0 ? 1 / Math.sqrt(information) : null,
  };
}

/** Coefficients fitted at one θ. */
interface Stage {
  readonly theta: number;
  readonly coefficients: Column;
  readonly counts: CountsAtMeans;
  readonly logLik: number;
}

/** Values of θ tried with coefficients of their own, beside the best at the Poisson means. */
const TRIED = [0.1, 1, 10];

function bestStart(used: UsedRows, counts: CountsAtMeans, coefficients: Column): Stage | null {
  const thetas = [thetaStart(counts).theta, ...TRIED];
  const stages = thetas.flatMap((theta) => {
    const stage = fitAt(used, theta, { counts, coefficients, shortStep: START_STEP });
    return stage === null ? [] : [{ ...stage, logLik: thetaLogLik(stage.counts, theta) }];
  });
  return stages.reduce<Stage | null>(
    (best, stage) => (best === null || stage.logLik > best.logLik ? stage : best),
    null,
  );
}

function fitAt(
  used: UsedRows,
  theta: number,
  {
    counts,
    coefficients: start,
    shortStep,
  }: Pick<Stage, 'counts' | 'coefficients'> & { readonly shortStep: number },
): Omit<Stage, 'logLik'> | null {
  const family = negativeBinomialFamily(theta);
  const end = irls(used.data, family, { start, watchEdge: false, shortStep });
  if (end.state !== 'settled') return null;
  const mean = end.place.eta.map(Math.exp);
  return { theta, coefficients: end.place.coefficients, counts: { ...counts, mean } };
}

/**
 * θ at fixed means and coefficients at fixed θ in turn; null when θ grows without end. The moves of
 * ln θ shrink by a steady share, so that every second one goes on to where they would add up to
 * (Aitken's process).
 */
function climb(used: UsedRows, start: Stage): Omit<Stage, 'logLik'> | null {
  let stage: Omit<Stage, 'logLik'> = start;
  let last: number | null = null;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const best = thetaAtMeans(stage.counts, stage.theta);
    if (best > AS_GOOD_AS_POISSON) return null;
    const move = Math.log(best / stage.theta);
    if (Math.abs(move) < SETTLED) return stage;
    const further: number = last === null ? 0 : restOfMoves(last, move);
    last = further === 0 ? move : null;
    const shortStep = Math.max(FINEST_STEP, Math.min(ROUGH_STEP, FINER * Math.abs(move)));
    const next = fitAt(used, best * Math.exp(further), { ...stage, shortStep });
    if (next === null) return stage;
    stage = next;
  }
  return stage;
}

/** What is still to come if moves go on shrinking as from `last` to `move`; 0 if they do not. */
function restOfMoves(last: number, move: number): number {
  const share = move / last;
  if (!(Math.abs(share) < 1)) return 0;
  const rest = (move * share) / (1 - share);
  return Math.max(-LONGEST_JUMP, Math.min(LONGEST_JUMP, rest));
}
