import type { Matrix } from 'ml-matrix';
import type { Refusal } from '../base/estimate.ts';
import type { Column } from './design-columns.ts';
import type { Design } from './design-matrix.ts';
import type { Family } from './glm-family.ts';
import { inverseUpper } from './pivoted-qr.ts';

/** The responses and the design of one model; every array has one value for each design row. */
export interface ModelData {
  readonly design: Design;
  /** Successes (binomial families), counts, or numbers (gaussian). */
  readonly y: ArrayLike<number>;
  /** Trials of each row for binomial families; 1 each when left out. Rows with 0 are left aside. */
  readonly trials?: ArrayLike<number>;
  /** Prior weights; 1 each when left out. Rows with 0 are left aside. */
  readonly weights?: ArrayLike<number>;
  /** Added to the linear predictor with coefficient 1, e.g. ln(line-hours); 0 when left out. */
  readonly offset?: ArrayLike<number>;
}

/** A model with finite coefficients, and what covariances and predictions need of it. */
export interface FittedModel {
  readonly kind: 'fitted';
  readonly estimator: 'maximum-likelihood' | 'firth';
  readonly family: Family;
  readonly design: Design;
  /** Design rows that carried weight; the columns below have one value for each of them. */
  readonly rows: readonly number[];
  /** Names and places of the design columns that have a coefficient, in design order. */
  readonly names: readonly string[];
  readonly kept: readonly number[];
  /** One for each name. */
  readonly coefficients: Column;
  /** Columns that earlier ones already hold, and how: kept × aliased. */
  readonly aliased: readonly string[];
  readonly alias: Matrix;
  readonly trials: Column;
  readonly prior: Column;
  readonly offset: Column;
  readonly y: Column;
  readonly linearPredictor: Column;
  /** Fitted means: probabilities for binomial families, expected counts for counts. */
  readonly fitted: Column;
  /** Root-weighted columns = q·r; Pearson residuals; variances of y at dispersion 1. */
  readonly q: readonly Column[];
  readonly r: Matrix;
  readonly pearson: Column;
  readonly variance: Column;
  /** Residuals whose products with q add up to 0: `pearson`, with its penalty for Firth's fit. */
  readonly residual: Column;
  readonly deviance: number;
  readonly pearsonChiSquare: number;
  readonly dfResidual: number;
  /** 1 by assumption, or χ²/df; null when it would have to be estimated on 0 degrees of freedom. */
  readonly dispersion: number | null;
  /** null for quasi and gaussian families. */
  readonly logLik: number | null;
  readonly aic: number | null;
}

/** Maximum likelihood has no finite answer: some rows can be fitted without any error. */
export interface SeparatedModel {
  readonly kind: 'separated';
  readonly family: Family;
  readonly extent: 'complete' | 'quasi';
  /** Columns whose coefficients run off to infinity. */
  readonly columns: readonly string[];
  /** Design rows fitted without error in the limit. */
  readonly rows: readonly number[];
  /** One sentence naming the columns. */
  readonly reason: string;
  readonly aliased: readonly string[];
  /** Limits of the fitted means, one for each design row that carried weight. */
  readonly fitted: Column;
  readonly deviance: number;
  readonly pearsonChiSquare: number;
  readonly dfResidual: number;
  readonly logLik: number | null;
  readonly aic: number | null;
}

export type ModelOutcome = FittedModel | SeparatedModel | Refusal;

/** Coefficients by column name; aliased columns are null. */
export function coefficientsByName(model: FittedModel): Record<string, number | null> {
  const known = new Map(model.names.map((name, place) => [name, model.coefficients[place]]));
  return Object.fromEntries(model.design.names.map((name) => [name, known.get(name) ?? null]));
}

/**
 * Covariance of the coefficients under the model: dispersion · (X′WX)⁻¹ at the final coefficients.
 * null when the dispersion could not be estimated.
 */
export function modelCovariance(model: FittedModel): Matrix | null {
  if (model.dispersion === null) return null;
  const inverse = inverseUpper(model.r);
  return inverse.mmul(inverse.transpose()).mul(model.dispersion);
}
