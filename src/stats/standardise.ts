import {
  type Basis,
  type Estimate,
  estimated,
  notEstimable,
  type Refusal,
} from '../base/estimate.ts';
import { at, type Column, total } from './design-columns.ts';
import type { Design } from './design-matrix.ts';
import { isBinomial } from './glm-family.ts';
import type { FittedModel } from './glm-model.ts';
import { type Level, tCritical } from './interval-level.ts';
import { type Covariance, contrastSpread, type LoneShare } from './sandwich-contrast.ts';
import { type AverageMean, averageMean, ownMix } from './standardise-mean.ts';

/** What both levels would give on the same mix of everything else. */
export interface Standardised {
  /** Probability, or events per unit of exposure, with every row set to A, and to B. */
  readonly a: StandardisedEstimate;
  readonly b: StandardisedEstimate;
  /** A − B. */
  readonly difference: StandardisedEstimate;
  /** A / B; the interval is made on the log scale. */
  readonly ratio: StandardisedEstimate;
  /**
   * exp of the average difference on the scale of the link: the odds ratio of a logistic model, the
   * rate ratio of a log-linear one (its geometric mean where it differs from row to row).
   */
  readonly linkRatio: StandardisedEstimate;
}

/** An estimate, with its standard error on the scale on which its interval was made. */
export type StandardisedEstimate = Estimate & {
  /** null when there is no interval. */
  readonly standardError: number | null;
  /** Infinity means the normal distribution; null when there is no interval. */
  readonly degreesOfFreedom: number | null;
};

export interface StandardiseOptions extends Level {
  readonly covariance: Covariance;
  /** Weight of each row; the log's own bites or exposure when left out. */
  readonly weights?: ArrayLike<number>;
}

/**
 * Standardised comparison of two levels: every row is set to A and to B, predicted and averaged over
 * the log's own mix, which is taken as fixed; intervals by the delta method. Single probabilities
 * get theirs on the logit scale, single rates and ratios on the log scale, the difference on its own.
 * @param rows the model's rows with the factor set to A and to B, by `withLevel`
 * Not estimable, with the reason, where a prediction would be invented or trips show no spread.
 * Source: Lane & Nelder 1982, Biometrics 38:613 (standardisation of a fitted model); delta method.
 */
export function standardise(
  model: FittedModel,
  rows: { readonly a: Design; readonly b: Design },
  options: StandardiseOptions,
): Standardised {
  const weights = options.weights ?? ownMix(model);
  const a = averageMean(model, rows.a, weights);
  const b = averageMean(model, rows.b, weights);
  const basis = basisOf(model, options, total(weights));
  const make = (figure: Figure | Refusal): StandardisedEstimate =>
    withInterval(figure, { ...options, basis });
  const both = (of: (a: AverageMean, b: AverageMean) => Figure): Figure | Refusal =>
    a.kind !== 'average' ? a : b.kind !== 'average' ? b : of(a, b);
  return {
    a: make(a.kind === 'average' ? single(a, model) : a),
    b: make(b.kind === 'average' ? single(b, model) : b),
    difference: make(both(difference)),
    ratio: make(both(ratio)),
    linkRatio: make(both(linkRatio)),
  };
}

/** A value on the scale of its interval, its gradient there, and the way back. */
interface Figure {
  readonly kind: 'figure';
  readonly value: number;
  readonly gradient: Column;
  back(value: number): number;
}

const identity = (value: number): number => value;
const logistic = (value: number): number => 1 / (1 + Math.exp(-value));
const minus = (a: Column, b: Column): Column => a.map((value, i) => value - at(b, i));
const times = (column: Column, factor: number): Column => column.map((value) => value * factor);

const difference = (a: AverageMean, b: AverageMean): Figure => ({
  kind: 'figure',
  value: a.mean - b.mean,
  gradient: minus(a.gradient, b.gradient),
  back: identity,
});

const ratio = (a: AverageMean, b: AverageMean): Figure => ({
  kind: 'figure',
  value: Math.log(a.mean / b.mean),
  gradient: minus(times(a.gradient, 1 / a.mean), times(b.gradient, 1 / b.mean)),
  back: Math.exp,
});

const linkRatio = (a: AverageMean, b: AverageMean): Figure => ({
  kind: 'figure',
  value: a.link - b.link,
  gradient: minus(a.averageRow, b.averageRow),
  back: Math.exp,
});

function single({ mean, rest, gradient }: AverageMean, { family }: FittedModel): Figure {
  if (isBinomial(family)) {
    const value = Math.log(mean) - Math.log(rest);
    return { kind: 'figure', value, gradient: times(gradient, 1 / (mean * rest)), back: logistic };
  }
  if (family.link.name !== 'log') return { kind: 'figure', value: mean, gradient, back: identity };
  const value = Math.log(mean);
  return { kind: 'figure', value, gradient: times(gradient, 1 / mean), back: Math.exp };
}

function basisOf(model: FittedModel, options: StandardiseOptions, weight: number): Basis {
  const binomial = isBinomial(model.family);
  const { link } = model.family;
  return {
    level: options.level,
    method: `standardised-${link.name}-${options.covariance.type}`.toLowerCase(),
    n: binomial ? total(model.trials) : model.rows.length,
    exposure: link.name === 'log' ? weight : null,
    notes: [],
  };
}

/** value ± t·standard error, taken back to the scale of the figure. */
function withInterval(
  figure: Figure | Refusal,
  { covariance, level, basis }: StandardiseOptions & { readonly basis: Basis },
): StandardisedEstimate {
  if (figure.kind !== 'figure') return refused(figure, basis);
  const spread = contrastSpread(covariance, figure.gradient);
  if (spread.kind !== 'spread') return refused(spread, basis);
  const { standardError, degreesOfFreedom, alone } = spread;
  const reach = tCritical(level, degreesOfFreedom) * standardError;
  const { value, back } = figure;
  const limits = { estimate: back(value), lower: back(value - reach), upper: back(value + reach) };
  const notes = alone === null ? basis.notes : [...basis.notes, aloneNote(alone)];
  return { ...estimated({ ...basis, ...limits, notes }), standardError, degreesOfFreedom };
}

const aloneNote = ({ cluster, share, isWidened }: LoneShare): string => {
  const limits = isWidened ? 'they are set wider for it' : 'they are a little too near each other';
  return (
    `About ${Math.round(100 * share)} % of it rests on trip ${cluster} alone, and one trip cannot ` +
    `show how much trips differ. Its limits cannot see that; ${limits}.`
  );
};

const refused = ({ reason }: Refusal, basis: Basis): StandardisedEstimate => ({
  ...notEstimable(reason, basis),
  standardError: null,
  degreesOfFreedom: null,
});
