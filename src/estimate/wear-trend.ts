import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { designMatrix } from '../stats/design-matrix.ts';
import { fitGlm } from '../stats/glm-fit.ts';
import { tCritical } from '../stats/interval-level.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import { contrastSpread } from '../stats/sandwich-contrast.ts';
import type { WearBite } from './wear-records.ts';

/** The three things that may go with line age: each counted over what. */
export const WEAR_OUTCOMES = {
  breaks: { over: 'fights' },
  pulled: { over: 'fights' },
  fights: { over: 'bites' },
} as const;

export type WearOutcome = keyof typeof WEAR_OUTCOMES;

/** So many fights older is what the trend is told for. */
export const TREND_STEP = 10;

/**
 * By what the odds of an outcome are multiplied on line ten fights older: a logistic line on age in
 * fights, with errors by trip (CR2, Satterthwaite degrees of freedom). 1 is no trend.
 * Not estimable where all or none had the outcome, on one age only, or from one trip.
 * Source: Agresti 2013, Categorical Data Analysis, ch. 5; Bell & McCaffrey 2002 (errors).
 */
export function wearTrend(
  bites: readonly WearBite[],
  outcome: WearOutcome,
  level: number,
): Estimate {
  const { over } = WEAR_OUTCOMES[outcome];
  const rows = bites.filter((bite) => bite[over] > 0);
  const events = rows.reduce((sum, bite) => sum + bite[outcome], 0);
  const trials = rows.reduce((sum, bite) => sum + bite[over], 0);
  const basis = { level, method: 'logistic-trend-cr2', n: trials, exposure: null, notes: [] };
  if (events === 0 || events === trials) {
    return notEstimable('All or none of them went this way, so nothing can rise with age.', basis);
  }
  const model = fitGlm(
    {
      design: designMatrix(['age'], { age: rows.map(({ age }) => age.fights / TREND_STEP) }),
      y: rows.map((bite) => bite[outcome]),
      trials: rows.map((bite) => bite[over]),
    },
    { name: 'binomial' },
  );
  if (model.kind !== 'fitted') return notEstimable(model.reason, basis);
  const [, slope] = model.coefficients;
  if (slope === undefined) {
    return notEstimable('All of it was fished on line of one age.', basis);
  }
  const trips = rows.map(({ trip }) => trip.trip_id);
  const covariance = clusterCovariance(model, trips, 'CR2');
  if (covariance.kind === 'not-estimable') return notEstimable(covariance.reason, basis);
  const spread = contrastSpread(covariance, Float64Array.of(0, 1));
  if (spread.kind === 'not-estimable') return notEstimable(spread.reason, basis);
  const reach = tCritical(level, spread.degreesOfFreedom) * spread.standardError;
  return estimated({
    ...basis,
    estimate: Math.exp(slope),
    lower: Math.exp(slope - reach),
    upper: Math.exp(slope + reach),
  });
}
