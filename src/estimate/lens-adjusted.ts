import { type Estimate, notEstimable } from '../base/estimate.ts';
import { withLevel } from '../stats/design-matrix.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import { standardise } from '../stats/standardise.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import { aliasedCovariates, fitAdjusted } from './adjusted-fit.ts';
import { adjustedRows } from './adjusted-rows.ts';
import type { Lens } from './lens.ts';
import { bitesOfRows, type Contrast } from './level-pairs.ts';
import { isProportion } from './proportion.ts';

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
  const fitted = fitAdjusted(prepared, contrast);
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
