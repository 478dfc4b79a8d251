/**
 * The one record for every figure the tool gives: a value with its interval, or a stated reason why
 * there is none. `NaN`, `undefined` and 0 never stand for "cannot be said".
 */
export type Estimate = Estimated | NotEstimable;

/** What every figure carries, whether or not it could be worked out. */
export interface Basis {
  /** Confidence level of the interval, between 0 and 1. */
  readonly level: number;
  /** Name of the method, e.g. `wilson-trip`. */
  readonly method: string;
  /** Number of things counted in the denominator: bites, hooked fish, trips, … */
  readonly n: number;
  /** Line-hours (or another exposure) behind a rate; null for a proportion. */
  readonly exposure: number | null;
  /** Warnings a reader must see beside the figure, in full sentences. */
  readonly notes: readonly string[];
}

/** A figure with its interval, lower ≤ estimate ≤ upper; an open end is ±Infinity. */
export interface Estimated extends Basis {
  readonly kind: 'estimated';
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** "Cannot be said", and why, in a sentence. */
export interface NotEstimable extends Basis {
  readonly kind: 'not-estimable';
  readonly reason: string;
}

/** Limits alone, for methods whose estimate the caller already holds. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/** Makes an estimate; throws on a non-number, which is a programmer's mistake and not a result. */
export function estimated(figure: Interval & { readonly estimate: number } & Basis): Estimated {
  const { estimate, lower, upper } = figure;
  if (Number.isNaN(estimate) || Number.isNaN(lower) || Number.isNaN(upper)) {
    throw new Error(
      `${figure.method} gave ${estimate} (${lower} to ${upper}), which is no number.`,
    );
  }
  return { ...figure, kind: 'estimated' };
}

/** The same figure in another unit: `of` must rise, so that lower stays lower. */
export function mapEstimate(figure: Estimate, of: (value: number) => number): Estimate {
  if (figure.kind === 'not-estimable') return figure;
  const { estimate, lower, upper } = figure;
  return estimated({ ...figure, estimate: of(estimate), lower: of(lower), upper: of(upper) });
}

/** Makes a "cannot be said" with its reason. */
export function notEstimable(reason: string, basis: Basis): NotEstimable {
  return { ...basis, kind: 'not-estimable', reason };
}

/** "Cannot be said" of an answer that is no single figure: a fit, a plan, a table. */
export type Refusal = Pick<NotEstimable, 'kind' | 'reason'>;

/** Makes a refusal with its reason, a full sentence. */
export const refuse = (reason: string): Refusal => ({ kind: 'not-estimable', reason });
