import type { Matrix } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';
import { designMatrix } from './design-matrix.ts';
import { fitGlm } from './glm-fit.ts';
import { type FittedModel, modelCovariance } from './glm-model.ts';
import { type Level, normalCritical } from './interval-level.ts';
import type { ScoredGroup } from './trend-cochran-armitage.ts';

/** How the log odds of an event move with one number, such as line age: intercept + slope · x. */
export interface LogisticTrend {
  readonly kind: 'fitted';
  readonly intercept: number;
  readonly slope: number;
  /** Of intercept and slope: 2 × 2. */
  readonly covariance: Matrix;
  /** t or z that limits are drawn with. */
  readonly critical: number;
  /** By what the odds are multiplied when x grows by 1. */
  readonly oddsRatio: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /** The x at which half have the event, by the line's own course; null for a level line. */
  readonly halfPoint: { readonly estimate: number; readonly standardError: number } | null;
}

/** Errors that replace the model's own, for outcomes that come in clusters. */
export interface ClusteredErrors {
  /** Covariance of intercept and slope. */
  readonly covariance: Matrix;
  /** The t quantile that belongs to it. */
  readonly critical: number;
}

/**
 * Fits a logistic line to groups of counts by maximum likelihood; every count is taken as
 * independent. Not estimable where the line runs away (all events on one side of some x), with one
 * x only, or without groups.
 * Source: Agresti 2013, Categorical Data Analysis, ch. 5.
 */
export function logisticTrend(
  groups: readonly ScoredGroup[],
  { level }: Level,
): LogisticTrend | Refusal {
  const counted = groups.filter((group) => group.total > 0);
  if (
    counted.length > 0 &&
    [0, 1].some((share) => counted.every((g) => g.events === share * g.total))
  )
    return refuse('All or none had the event, so nothing can rise.');
  const model = fitGlm(
    {
      design: designMatrix(['score'], { score: groups.map((group) => group.score) }),
      y: groups.map((group) => group.events),
      trials: groups.map((group) => group.total),
    },
    { name: 'binomial' },
  );
  if (model.kind === 'not-estimable') return model;
  if (model.kind === 'separated')
    return refuse('All events lie on one side of some value, so the line has no end to its slope.');
  const covariance = modelCovariance(model);
  if (covariance === null || model.coefficients.length < 2)
    return refuse('All groups stand at one value.');
  return describeLogisticTrend(model, { covariance, critical: normalCritical(level) });
}

/**
 * The same reading of a binomial model that was fitted already, on an intercept and one number in
 * that order, with errors of the caller's choice (by trip, for bites of one trip are alike).
 * The half point's error is by the delta method: of little use where the slope may be 0.
 * Source: Agresti 2013, ch. 5; delta method, ibid. ch. 16.
 */
export function describeLogisticTrend(
  model: FittedModel,
  { covariance, critical }: ClusteredErrors,
): LogisticTrend {
  const [intercept = 0, slope = 0] = model.coefficients;
  const reach = critical * Math.sqrt(covariance.get(1, 1));
  const gradient = [-1 / slope, intercept / slope ** 2] as const;
  return {
    kind: 'fitted',
    intercept,
    slope,
    covariance,
    critical,
    oddsRatio: {
      estimate: Math.exp(slope),
      lower: Math.exp(slope - reach),
      upper: Math.exp(slope + reach),
    },
    halfPoint:
      slope === 0
        ? null
        : {
            estimate: -intercept / slope,
            standardError: Math.sqrt(quadratic(covariance, gradient)),
          },
  };
}

/** The chance of the event at one x, with limits that stay inside 0 to 1. */
export function chanceAt(
  { intercept, slope, covariance, critical }: LogisticTrend,
  x: number,
): { readonly estimate: number; readonly lower: number; readonly upper: number } {
  const line = intercept + slope * x;
  const reach = critical * Math.sqrt(quadratic(covariance, [1, x]));
  const chance = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));
  return { estimate: chance(line), lower: chance(line - reach), upper: chance(line + reach) };
}

function quadratic(covariance: Matrix, [a, b]: readonly [number, number]): number {
  const [aa, ab, bb] = [covariance.get(0, 0), covariance.get(0, 1), covariance.get(1, 1)];
  return Math.max(0, a * a * aa + 2 * a * b * ab + b * b * bb);
}
