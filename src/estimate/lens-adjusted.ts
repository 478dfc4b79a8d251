import { type Estimate, notEstimable } from '../base/estimate.ts';
import { designMatrix, withLevel } from '../stats/design-matrix.ts';
import { fitFirthLogistic } from '../stats/firth-logistic.ts';
import { fitGlm } from '../stats/glm-fit.ts';
import type { FittedModel, ModelData } from '../stats/glm-model.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import { standardise } from '../stats/standardise.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import { adjustedRows } from './adjusted-rows.ts';
import type { DroppedCovariate, Lens } from './lens.ts';
import { type Contrast, eventsAndUnits } from './level-pairs.ts';
import { isProportion } from './proportion.ts';

const FIRTH =
  'Some combination of levels went all one way, so the penalised (Firth) fit was used in place of maximum likelihood.';

/**
 * A and B with the covariates held equal: a logistic model of the share, or a log-linear one of the
 * rate with line-hours as exposure, on trip × cell tallies; every bite is set to A, then to B, and
 * averaged. Errors are by trip (CR2, Satterthwaite degrees of freedom).
 * Source: estimators named in the statistics core (`glm-fit`, `sandwich-cluster`, `standardise`).
 * @param rows tallies by the factor and the covariates.
 */
export function lensAdjusted(
  rows: readonly TallyRow[],
  contrast: Contrast,
  options: { readonly level: number; readonly adjust: readonly FactorName[] },
): Lens {
  const { level } = options;
  const share = isProportion(contrast.measure);
  const prepared = adjustedRows(rows, contrast, options.adjust);
  const fitted = fitRows(prepared.rows, contrast, prepared.covariates);
  if ('reason' in fitted) return refusedLens(fitted.reason, prepared, level);
  const { model, notes } = fitted;
  const trips = prepared.rows.map((row) => row.trip_id);
  const covariance = clusterCovariance(model, trips, 'CR2');
  if ('reason' in covariance) return refusedLens(covariance.reason, prepared, level);
  const [levelA, levelB] = contrast.levels;
  const result = standardise(
    model,
    {
      a: withLevel(model.design, contrast.factor, levelA),
      b: withLevel(model.design, contrast.factor, levelB),
    },
    { level, covariance },
  );
  const noted = (figure: Estimate): Estimate => ({ ...figure, notes: [...figure.notes, ...notes] });
  const main = share ? result.difference : result.ratio;
  return {
    name: 'adjusted',
    difference: noted(result.difference),
    ratio: noted(result.ratio),
    oddsRatio: share ? noted(result.linkRatio) : null,
    a: noted(result.a),
    b: noted(result.b),
    trips: new Set(trips).size,
    bites: bitesOfRows(prepared.rows, contrast),
    method: `${model.estimator === 'firth' ? 'firth' : 'ml'}-${main.method}`,
    covariates: prepared.covariates,
    dropped: [...prepared.dropped, ...aliasedCovariates(model, prepared.covariates)],
    refused: main.kind === 'not-estimable' ? main.reason : null,
  };
}

type Fitted =
  | { readonly model: FittedModel; readonly notes: readonly string[] }
  | { readonly reason: string };

/** The compared factor stands last, so that where columns overlap it is the one given up. */
function fitRows(
  rows: readonly TallyRow[],
  contrast: Contrast,
  covariates: readonly FactorName[],
): Fitted {
  const { factor, levels, measure } = contrast;
  const absent = levels.find((one) => !rows.some((row) => row[factor] === one));
  if (absent !== undefined) return { reason: `Nothing is left of ${absent} to compare.` };
  const terms = [...covariates, factor];
  const variables = Object.fromEntries(terms.map((name) => [name, factorColumn(rows, name)]));
  const counts = rows.map((row) => eventsAndUnits(row, measure));
  const units = counts.map((count) => count.units);
  const design = designMatrix(terms, variables);
  const y = counts.map((count) => count.events);
  const share = isProportion(measure);
  const data: ModelData = share
    ? { design, y, trials: units }
    : { design, y, offset: units.map(Math.log) };
  const outcome = fitGlm(data, { name: share ? 'binomial' : 'poisson' });
  if (outcome.kind === 'fitted') return { model: outcome, notes: [] };
  if (outcome.kind !== 'separated' || !share) return { reason: outcome.reason };
  const firth = fitFirthLogistic(data);
  return 'reason' in firth ? { reason: firth.reason } : { model: firth, notes: [FIRTH] };
}

function factorColumn(rows: readonly TallyRow[], name: FactorName) {
  const values = rows.map((row) => row[name] ?? '');
  return { levels: [...new Set(values)].sort(), values };
}

function aliasedCovariates(
  model: FittedModel,
  covariates: readonly FactorName[],
): DroppedCovariate[] {
  return covariates.flatMap((covariate) => {
    const columns = model.aliased.filter((name) => name.startsWith(covariate));
    if (columns.length === 0) return [];
    const levels = columns.map((name) => name.slice(covariate.length)).join(', ');
    const reason = `Level ${levels} says nothing that the other covariates do not say already.`;
    return [{ covariate, reason }];
  });
}

function bitesOfRows(rows: readonly TallyRow[], { measure }: Contrast): number {
  const share = isProportion(measure);
  return rows.reduce((sum, row) => {
    const { events, units } = eventsAndUnits(row, measure);
    return sum + (share ? units : events);
  }, 0);
}

function refusedLens(
  reason: string,
  { rows, covariates, dropped }: ReturnType<typeof adjustedRows>,
  level: number,
): Lens {
  const basis = { level, method: 'adjusted', n: rows.length, exposure: null, notes: [] };
  const none = notEstimable(reason, basis);
  return {
    name: 'adjusted',
    difference: none,
    ratio: none,
    oddsRatio: null,
    a: none,
    b: none,
    trips: new Set(rows.map((row) => row.trip_id)).size,
    bites: 0,
    method: 'adjusted',
    covariates,
    dropped,
    refused: reason,
  };
}
