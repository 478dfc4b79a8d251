import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { type Correlated, jointBasis, squareAndAdd } from '../stats/mover-difference.ts';

/**
 * The odds ratio of two proportions from their own limits: square-and-add on the log odds.
 * Not estimable where either proportion is 0 or 1, whose odds have no logarithm.
 */
export function oddsRatioOf(a: Estimate, b: Estimate, { correlation = 0 }: Correlated): Estimate {
  const basis = jointBasis(a, b, { method: 'mover-log-odds', correlation });
  const first = logOdds(a);
  const second = logOdds(b);
  if (first === null || second === null) {
    return notEstimable('A level with none or all of its bites hooked has no odds.', basis);
  }
  const limits = squareAndAdd(first, second, correlation);
  return estimated({
    ...basis,
    estimate: Math.exp(limits.estimate),
    lower: Math.exp(limits.lower),
    upper: Math.exp(limits.upper),
  });
}

function logOdds(figure: Estimate) {
  if (figure.kind === 'not-estimable' || figure.estimate <= 0 || figure.estimate >= 1) return null;
  const logit = (p: number) => Math.log(p / (1 - p));
  return {
    estimate: logit(figure.estimate),
    lower: logit(figure.lower),
    upper: logit(figure.upper),
  };
}
