import { type Basis, type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { whyNoRate } from './interval-rate.ts';

/**
 * The difference of two independent Poisson rates, first − second, with normal limits; too narrow
 * for few events, and without width for none (then not estimable). A group without exposure: not
 * estimable. The difference built from Garwood limits is `moverRateDifference`.
 * Source: textbook form.
 */
export function rateDifferenceWald(rates: TwoRates, { level }: Level): Estimate {
  const { events1, exposure1, events2, exposure2 } = rates;
  const basis: Basis = {
    level,
    method: 'rate-difference-wald',
    n: events1 + events2,
    exposure: exposure1 + exposure2,
    notes: [],
  };
  const reason = whyNoRate(events1, exposure1) ?? whyNoRate(events2, exposure2);
  if (reason !== null) return notEstimable(reason, basis);
  if (events1 + events2 === 0) return notEstimable('No event was seen in either group.', basis);
  const estimate = events1 / exposure1 - events2 / exposure2;
  const variance = events1 / exposure1 / exposure1 + events2 / exposure2 / exposure2;
  const half = normalCritical(level) * Math.sqrt(variance);
  return estimated({ ...basis, estimate, lower: estimate - half, upper: estimate + half });
}
