import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, dot, total } from './design-columns.ts';
import {
  binomialFamily,
  type Family,
  gaussianFamily,
  isBinomial,
  negativeBinomialFamily,
  poissonFamily,
} from './glm-family.ts';
import { irls, linearise, type Settled } from './glm-irls.ts';
import { LINKS } from './glm-link.ts';
import type { FittedModel, ModelData, ModelOutcome, SeparatedModel } from './glm-model.ts';
import { type UsedRows, usedRows } from './glm-rows.ts';
import { findSeparation, type Separation } from './separation.ts';

/** What is assumed about the response. */
export type FamilyChoice =
  | { readonly name: 'binomial' | 'quasibinomial'; readonly link?: 'logit' | 'probit' | 'cloglog' }
  | { readonly name: 'poisson' | 'quasipoisson' | 'gaussian' }
  | { readonly name: 'negative-binomial'; readonly theta: number };

/**
 * Fits a generalised linear model by maximum likelihood (quasi-likelihood for quasi families).
 * @returns `fitted` with finite coefficients, aliased columns set aside and named; `separated` when
 * some rows can be fitted without error, so that coefficients run off to infinity (found by a
 * certificate, the limits of means and likelihood are given); `not-estimable` with a reason.
 * One row or as many columns as rows is a fit with 0 residual degrees of freedom.
 * Source: McCullagh & Nelder 1989, Generalized Linear Models.
 */
export function fitGlm(model: ModelData, choice: FamilyChoice): ModelOutcome {
  const family = familyOf(choice);
  const used = usedRows(model, family);
  return 'kind' in used ? used : fitRows(model, family, { used });
}

/** The same with the family made and the rows picked already; `start` as coefficients, if known. */
export function fitRows(
  model: ModelData,
  family: Family,
  { used, start = nullStart(used, family) }: { readonly used: UsedRows; readonly start?: Column },
): ModelOutcome {
  let end = irls(used.data, family, { start, watchEdge: true });
  if (end.state !== 'settled') {
    const edges = used.data.y.map((value) => family.edge(value));
    const separation = findSeparation(used.data.columns, edges);
    if (separation !== null) return separated(model, family, { used, separation });
    end = irls(used.data, family, { start: end.place.coefficients, watchEdge: false });
  }
  const settled = end.state === 'settled' ? linearise(used.data, family, end.place) : null;
  return settled === null ? unsettled() : fittedModel(model, family, { used, end: settled });
}

const unsettled = (): Refusal =>
  refuse('The model did not settle: the rows say too little about some of its coefficients.');

function familyOf(choice: FamilyChoice): Family {
  switch (choice.name) {
    case 'binomial':
    case 'quasibinomial':
      return binomialFamily(LINKS[choice.link ?? 'logit'], choice.name === 'quasibinomial');
    case 'poisson':
    case 'quasipoisson':
      return poissonFamily(choice.name === 'quasipoisson');
    case 'negative-binomial':
      return negativeBinomialFamily(choice.theta);
    case 'gaussian':
      return gaussianFamily();
  }
}

/** Only the intercept away from 0: the model without any variable, all rows put together. */
function nullStart({ data }: UsedRows, family: Family): Column {
  const successes = dot(data.weight, data.y);
  const binomial = isBinomial(family);
  const exposure = family.link.name === 'log' ? data.offset.map(Math.exp) : data.weight;
  const weight = family.link.name === 'log' ? dot(data.weight, exposure) : total(data.weight);
  const mean = binomial ? (successes + 0.5) / (weight + 1) : successes / weight;
  const start = new Float64Array(data.columns.length);
  start[0] = family.link.eta(family.link.name === 'log' ? Math.max(mean, 1e-3 / weight) : mean);
  return start;
}

/** Puts together what a settled iteration gave. */
export function fittedModel(
  { design }: ModelData,
  family: Family,
  { used, end }: { readonly used: UsedRows; readonly end: Settled },
): FittedModel {
  const { rows, trials, prior, columns, data } = used;
  const { eta, q, r, pearson, variance, deviance } = end.model;
  const rank = columns.kept.length;
  const logLik = logLikelihood(used, family, eta);
  const pearsonChiSquare = dot(pearson, pearson);
  const dfResidual = rows.length - rank;
  const estimated = dfResidual > 0 ? pearsonChiSquare / dfResidual : null;
  return {
    kind: 'fitted',
    estimator: 'maximum-likelihood',
    family,
    design,
    rows,
    names: columns.kept.map((place) => design.names[place] as string),
    kept: columns.kept,
    coefficients: end.coefficients,
    aliased: columns.aliased.map((place) => design.names[place] as string),
    alias: columns.alias,
    trials,
    prior,
    offset: data.offset,
    y: data.y,
    linearPredictor: eta,
    fitted: eta.map((here) => family.link.mean(here)),
    q,
    r,
    pearson,
    variance,
    residual: pearson,
    deviance,
    pearsonChiSquare,
    dfResidual,
    dispersion: family.dispersion === 'one' ? 1 : estimated,
    logLik,
    aic: logLik === null ? null : -2 * logLik + 2 * rank,
  };
}

/** Σ prior weight · log-likelihood of the row; null without a likelihood. */
function logLikelihood({ data, trials, prior }: UsedRows, family: Family, eta: Column) {
  const { logLik } = family;
  if (logLik === null) return null;
  return total(
    eta.map((here, row) => at(prior, row) * logLik(at(data.y, row), here, at(trials, row))),
  );
}

/** The limit of a separated fit: its errorless rows leave, the others are fitted by themselves. */
function separated(
  model: ModelData,
  family: Family,
  { used, separation }: { readonly used: UsedRows; readonly separation: Separation },
): SeparatedModel | Refusal {
  const leaving = new Set(separation.rows.map((place) => used.rows[place] as number));
  const weights = Float64Array.from({ length: model.design.rows }, (_, row) =>
    leaving.has(row) ? 0 : model.weights === undefined ? 1 : at(model.weights, row),
  );
  const rest = leaving.size === used.rows.length ? null : usedRows({ ...model, weights }, family);
  const limit = rest === null || 'kind' in rest ? rest : fitRows(model, family, { used: rest });
  if (limit !== null && limit.kind !== 'fitted') return unsettled();
  const means = new Map(limit?.rows.map((row, place) => [row, at(limit.fitted, place)]));
  const names = separation.columns.map(
    (place) => model.design.names[used.columns.kept[place] as number] as string,
  );
  const logLik = limit === null ? (family.logLik === null ? null : 0) : limit.logLik;
  return {
    kind: 'separated',
    family,
    extent: separation.extent,
    columns: names,
    rows: [...leaving],
    reason: `Some rows are all one way, so there is no end to how large ${names.join(', ')} may be.`,
    aliased: used.columns.aliased.map((place) => model.design.names[place] as string),
    // In the limit an errorless row is fitted by its own share or count.
    fitted: Float64Array.from(used.rows, (row, place) => means.get(row) ?? at(used.data.y, place)),
    deviance: limit?.deviance ?? 0,
    pearsonChiSquare: limit?.pearsonChiSquare ?? 0,
    dfResidual: used.rows.length - used.columns.kept.length,
    logLik,
    aic: logLik === null ? null : -2 * logLik + 2 * used.columns.kept.length,
  };
}
