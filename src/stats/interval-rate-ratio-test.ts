import type { NotTestable } from '../base/test-outcome.ts';
import {
  binomialAtLeast,
  binomialAtMost,
  logBinomialProbability,
  type Trials,
} from './binomial.ts';
import type { TwoRates } from './difference-two-rates.ts';
import { whyNoRatio } from './interval-rate-ratio.ts';

/** Two-sided p that two rates are the same, in the three usual forms, each 0 to 1. */
export interface RateRatioTest {
  readonly kind: 'tested';
  readonly method: 'rate-ratio-exact';
  /** All splits no more likely than the observed one. */
  readonly pMinimumLikelihood: number;
  /** Twice the smaller tail. */
  readonly pDoubled: number;
  /** Twice the smaller tail with half the chance of the observed split: less cautious. */
  readonly pMidP: number;
}

/** Splits whose chances agree to this share count as equally likely, whatever their rounding. */
const EQUALLY_LIKELY = 1 + 1e-7;

/**
 * Exact conditional test that two independent Poisson rates are the same: given the sum of events,
 * events1 is binomial with the first group's share of exposure. No events, a group without
 * exposure, or counts that are not whole: not testable.
 * Source: Przyborowski & Wilenski 1940.
 */
export function rateRatioTest(rates: TwoRates): RateRatioTest | NotTestable {
  const { events1, exposure1, events2, exposure2 } = rates;
  const method = 'rate-ratio-exact';
  const whole = Number.isInteger(events1) && Number.isInteger(events2);
  const reason = whyNoRatio(rates) ?? (whole ? null : 'Exact tests need whole counts of events.');
  if (reason !== null) return { kind: 'not-estimable', method, reason };
  const split = { n: events1 + events2, p: exposure1 / (exposure1 + exposure2) };
  const exactly = Math.exp(logBinomialProbability(events1, split));
  const smaller = Math.min(binomialAtMost(events1, split), binomialAtLeast(events1, split));
  return {
    kind: 'tested',
    method,
    pMinimumLikelihood: Math.min(1, minimumLikelihood(events1, split)),
    pDoubled: Math.min(1, 2 * smaller),
    pMidP: Math.min(1, 2 * (smaller - exactly / 2)),
  };
}

/** Chance of all splits that are no more likely than the observed one. */
function minimumLikelihood(observed: number, split: Trials): number {
  const mean = split.n * split.p;
  if (observed === mean) return 1;
  const limit = logBinomialProbability(observed, split) + Math.log(EQUALLY_LIKELY);
  const asLikely = (k: number) => logBinomialProbability(k, split) <= limit;
  if (observed < mean) {
    const above = firstWhere(asLikely, Math.ceil(mean), split.n);
    return binomialAtMost(observed, split) + binomialAtLeast(above, split);
  }
  const steps = firstWhere((back) => asLikely(Math.floor(mean) - back), 0, Math.floor(mean));
  return binomialAtLeast(observed, split) + binomialAtMost(Math.floor(mean) - steps, split);
}

/** The smallest whole number from `from` to `to` at which a condition, once met, stays met. */
function firstWhere(met: (k: number) => boolean, from: number, to: number): number {
  let [low, high] = [from, to + 1];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (met(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
