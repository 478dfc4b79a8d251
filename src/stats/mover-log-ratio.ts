import { type Estimate, type Estimated, estimated, notEstimable } from '../base/estimate.ts';
import { type Correlated, isPositive, jointBasis, squareAndAdd } from './mover-difference.ts';

/**
 * The ratio of two estimates, first over second, above 0: square-and-add on the logarithms, with
 * the correlation that shared trips bring. A lower limit of 0 in the first gives 0, in the second
 * an infinite upper limit. Not estimable when a level has no events, because 0 has no logarithm.
 * Source: Zou & Donner 2008, Stat Med 27:1693 (ratios by way of logarithms); Zou 2007.
 * @throws RangeError for two confidence levels or a correlation outside −1 to 1.
 */
export function moverLogRatio(
  first: Estimate,
  second: Estimate,
  { correlation = 0 }: Correlated = {},
): Estimate {
  const basis = jointBasis(first, second, { method: 'mover-log-ratio', correlation });
  if (first.kind === 'not-estimable') return notEstimable(first.reason, basis);
  if (second.kind === 'not-estimable') return notEstimable(second.reason, basis);
  if (!isPositive(first) || !isPositive(second))
    return notEstimable(
      'One level has no events, so no ratio can be formed; the difference can.',
      basis,
    );
  const { lower, upper } = squareAndAdd(logarithm(first), logarithm(second), correlation);
  const estimate = first.estimate / second.estimate;
  return estimated({ ...basis, estimate, lower: Math.exp(lower), upper: Math.exp(upper) });
}

function logarithm({ estimate, lower, upper }: Estimated) {
  return { estimate: Math.log(estimate), lower: Math.log(lower), upper: Math.log(upper) };
}
