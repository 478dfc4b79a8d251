import {
  type Basis,
  type Estimate,
  type Estimated,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';

/** A figure with limits, all that the square-and-add rule needs to know of it. */
export interface WithLimits extends Interval {
  readonly estimate: number;
}

export interface Correlated {
  /** Correlation of the two estimates, −1 to 1; 0 (the default) when they share no clusters. */
  readonly correlation?: number;
}

/**
 * Limits for the difference of two figures from the limits of each: the distances to the limits are
 * squared and added, so that a lopsided interval stays lopsided. An infinite limit on the side that
 * matters gives an infinite limit.
 * Source: Zou & Donner 2008, Stat Med 27:1693; with correlation Zou 2007, Psychol Methods 12:399.
 */
export function squareAndAdd(first: WithLimits, second: WithLimits, correlation = 0): WithLimits {
  const estimate = first.estimate - second.estimate;
  const below = distance(first.estimate - first.lower, second.upper - second.estimate, correlation);
  const above = distance(first.upper - first.estimate, second.estimate - second.lower, correlation);
  return { estimate, lower: estimate - below, upper: estimate + above };
}

function distance(ofFirst: number, ofSecond: number, correlation: number): number {
  // Infinity first: the correlation term would make it Infinity − Infinity.
  if (ofFirst === Number.POSITIVE_INFINITY || ofSecond === Number.POSITIVE_INFINITY)
    return Number.POSITIVE_INFINITY;
  const along = ofFirst - correlation * ofSecond;
  // (a − ρb)² + (1 − ρ²)b² is a² + b² − 2ρab without its cancellation near ρ = 1.
  return Math.hypot(along, ofSecond * Math.sqrt((1 - correlation) * (1 + correlation)));
}

/**
 * The difference of two estimates of one level of confidence, e.g. two clustered proportions, with
 * the correlation that shared trips bring. In the unit of the estimates. If one cannot be said, the
 * difference cannot either, for the same reason.
 * @throws RangeError for two confidence levels or a correlation outside −1 to 1.
 */
export function moverDifference(
  first: Estimate,
  second: Estimate,
  { correlation = 0 }: Correlated = {},
): Estimate {
  const basis = jointBasis(first, second, { method: 'mover-difference', correlation });
  if (first.kind === 'not-estimable') return notEstimable(first.reason, basis);
  if (second.kind === 'not-estimable') return notEstimable(second.reason, basis);
  return estimated({ ...basis, ...squareAndAdd(first, second, correlation) });
}

/** Units, exposure and notes of two figures together. */
export function jointBasis(
  first: Estimate,
  second: Estimate,
  { method, correlation }: { readonly method: string; readonly correlation: number },
): Basis {
  if (first.level !== second.level)
    throw new RangeError(`Limits at ${first.level} and at ${second.level} cannot be joined.`);
  if (!(Math.abs(correlation) <= 1))
    throw new RangeError(`A correlation lies between −1 and 1, not at ${correlation}.`);
  return {
    level: first.level,
    method,
    n: first.n + second.n,
    exposure:
      first.exposure === null || second.exposure === null ? null : first.exposure + second.exposure,
    notes: [...new Set([...first.notes, ...second.notes])],
  };
}

/** Whether an estimate is a number above zero, which a ratio on the log scale needs. */
export function isPositive(figure: Estimate): figure is Estimated {
  return figure.kind === 'estimated' && figure.estimate > 0;
}
