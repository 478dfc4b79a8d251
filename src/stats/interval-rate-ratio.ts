import { type Basis, type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import { type Level, normalCritical } from './interval-level.ts';
import { exactLowerOdds, type LowerOdds, midPLowerOdds, oddsLimits } from './interval-odds.ts';
import { whyNoRate } from './interval-rate.ts';

/**
 * The ratio of two independent Poisson rates, first over second, with exact limits: given the sum
 * of events, events1 is binomial. It covers at least its level. No events in the first group: ratio
 * and lower limit 0; none in the second: ratio and upper limit Infinity; none at all, or a group
 * without exposure: not estimable.
 * Source: Przyborowski & Wilenski 1940; limits of Clopper & Pearson 1934, as odds.
 */
export function rateRatioExact(rates: TwoRates, { level }: Level): Estimate {
  return conditionalRatio(rates, { level, method: 'rate-ratio-exact', lowerOdds: exactLowerOdds });
}

/**
 * The same with half the chance of the observed split taken off each tail (mid-P): shorter, and on
 * average at its level. Boundary cases as in `rateRatioExact`.
 * Source: Lancaster 1961 (citation from memory); textbook form.
 */
export function rateRatioMidP(rates: TwoRates, { level }: Level): Estimate {
  return conditionalRatio(rates, { level, method: 'rate-ratio-mid-p', lowerOdds: midPLowerOdds });
}

/**
 * The ratio of two independent Poisson rates with normal limits on the log scale. No events in
 * either group, or a group without exposure: not estimable.
 * Source: delta method, textbook form.
 */
export function rateRatioLogWald(rates: TwoRates, { level }: Level): Estimate {
  const { events1, events2 } = rates;
  const basis = basisOf(rates, level, 'rate-ratio-log-wald');
  const reason = whyNoRatio(rates);
  if (reason !== null) return notEstimable(reason, basis);
  if (events1 === 0 || events2 === 0)
    return notEstimable(
      'One group had no event, and a log scale needs at least one in each.',
      basis,
    );
  const estimate = rateRatio(rates);
  const spread = Math.exp(normalCritical(level) * Math.sqrt(1 / events1 + 1 / events2));
  return estimated({ ...basis, estimate, lower: estimate / spread, upper: estimate * spread });
}

function conditionalRatio(
  rates: TwoRates,
  { level, method, lowerOdds }: Level & { method: string; lowerOdds: LowerOdds },
): Estimate {
  const basis = basisOf(rates, level, method);
  const reason = whyNoRatio(rates);
  if (reason !== null) return notEstimable(reason, basis);
  const odds = oddsLimits(lowerOdds, { wins: rates.events1, losses: rates.events2, level });
  const perOdds = rates.exposure2 / rates.exposure1;
  const [lower, upper] = [odds.lower * perOdds, odds.upper * perOdds];
  return estimated({ ...basis, estimate: rateRatio(rates), lower, upper });
}

/** Why two counts give no ratio of rates, in a sentence; null when they do. */
export function whyNoRatio({ events1, exposure1, events2, exposure2 }: TwoRates): string | null {
  const reason = whyNoRate(events1, exposure1) ?? whyNoRate(events2, exposure2);
  if (reason !== null) return reason;
  return events1 + events2 === 0 ? 'No event was seen in either group.' : null;
}

function rateRatio({ events1, exposure1, events2, exposure2 }: TwoRates): number {
  return (events1 / events2) * (exposure2 / exposure1);
}

function basisOf(
  { events1, exposure1, events2, exposure2 }: TwoRates,
  level: number,
  method: string,
): Basis {
  return { level, method, n: events1 + events2, exposure: exposure1 + exposure2, notes: [] };
}
