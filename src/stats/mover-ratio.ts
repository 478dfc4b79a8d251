import { type Estimate, estimated, type Interval, notEstimable } from '../base/estimate.ts';
import { jointBasis, type WithLimits } from './mover-difference.ts';

/**
 * The ratio of two independent estimates, first over second, from the limits of each (MOVER-R); no
 * logarithm is taken, so 0 does not stop it. A first of 0 gives 0 and its upper limit; a second of 0
 * gives an infinite estimate and its lower limit; both 0: not estimable. If one cannot be said, the
 * ratio cannot either.
 * Source: Donner & Zou 2012, Stat Methods Med Res 21:347.
 * @throws RangeError for two confidence levels.
 */
export function moverRatio(first: Estimate, second: Estimate): Estimate {
  const basis = jointBasis(first, second, { method: 'mover-ratio', correlation: 0 });
  if (first.kind === 'not-estimable') return notEstimable(first.reason, basis);
  if (second.kind === 'not-estimable') return notEstimable(second.reason, basis);
  if (first.estimate === 0 && second.estimate === 0)
    return notEstimable('Neither level has events, so no ratio can be formed.', basis);
  const estimate = first.estimate / second.estimate;
  return estimated({ ...basis, estimate, ...moverRatioLimits(first, second) });
}

/**
 * The ratios R at which r₁ − R r₂ lies as far from 0 as its own squared-and-added limit: roots of
 * A R² − 2 r₁r₂ R + C with A = l(2r − l) of one limit of the second and C the same of the first.
 * The lower root is taken as C over the larger one, which loses no digits and needs no A above 0.
 */
function moverRatioLimits(first: WithLimits, second: WithLimits): Interval {
  const middle = first.estimate * second.estimate;
  const largest = (A: number, C: number) =>
    middle + Math.sqrt(Math.max(0, middle * middle - A * C));
  const below = { A: chord(second, second.upper), C: chord(first, first.lower) };
  const above = { A: chord(second, second.lower), C: chord(first, first.upper) };
  return {
    lower: below.C > 0 ? below.C / largest(below.A, below.C) : 0,
    upper: above.A > 0 ? largest(above.A, above.C) / above.A : Number.POSITIVE_INFINITY,
  };
}

const chord = ({ estimate }: WithLimits, limit: number): number => limit * (2 * estimate - limit);
