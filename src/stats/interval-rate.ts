import {
  type Basis,
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';
import { gammaQuantile, gammaUpperQuantile } from './distributions.ts';
import { type Level, normalCritical, tailArea } from './interval-level.ts';

/** Limits of an event count, to be divided by the exposure. */
type CountLimits = (events: number, level: number) => Interval;

/**
 * The exact Poisson interval for a rate, events independent; it covers at least its level.
 * No events: lower limit 0, upper limit −ln(α/2)/exposure. No exposure: not estimable.
 * Source: Garwood 1936.
 * @param events count, 0 or more; need not be whole
 * @param exposure line-hours or any other amount of effort, above 0
 */
export function garwood(events: number, exposure: number, { level }: Level): Estimate {
  return rateEstimate(events, exposure, { level, method: 'garwood', limits: garwoodLimits });
}

/** Exact limits of a Poisson mean from its count, as gamma quantiles; fractions are allowed. */
export function garwoodLimits(events: number, level: number): Interval {
  const tail = tailArea(level);
  return {
    lower: events === 0 ? 0 : gammaQuantile(tail, events),
    upper: gammaUpperQuantile(tail, events + 1),
  };
}

/**
 * The score interval for a Poisson rate, events independent. No exposure: not estimable.
 * Source: Rao's score test turned round; the lower limit from the product of the roots.
 */
export function rateScore(events: number, exposure: number, { level }: Level): Estimate {
  const limits = () => {
    const z2 = normalCritical(level) ** 2;
    const upper = events + z2 / 2 + Math.sqrt(z2 * (events + z2 / 4));
    return { lower: (events * events) / upper, upper };
  };
  return rateEstimate(events, exposure, { level, method: 'rate-score', limits });
}

/**
 * Byar's close approximation to the exact interval. No events: lower limit 0. No exposure: not
 * estimable.
 * Source: Breslow & Day 1987 (citation from memory).
 */
export function byar(events: number, exposure: number, { level }: Level): Estimate {
  const z = normalCritical(level);
  const cubed = (count: number, side: number) =>
    count * Math.max(0, 1 - 1 / (9 * count) + side / (3 * Math.sqrt(count))) ** 3;
  const limits = () => ({
    lower: events === 0 ? 0 : cubed(events, -z),
    upper: cubed(events + 1, z),
  });
  return rateEstimate(events, exposure, { level, method: 'byar', limits });
}

/**
 * The normal interval on the log scale, standard error 1/√events. No events, or no exposure: not
 * estimable.
 * Source: delta method, textbook form.
 */
export function rateLogWald(events: number, exposure: number, { level }: Level): Estimate {
  const spread = Math.exp(normalCritical(level) / Math.sqrt(events));
  const method = 'rate-log-wald';
  if (events === 0) {
    const basis: Basis = { level, method, n: 0, exposure, notes: [] };
    return notEstimable('No event was seen, and this interval needs at least one.', basis);
  }
  const limits = () => ({ lower: events / spread, upper: events * spread });
  return rateEstimate(events, exposure, { level, method, limits });
}

/**
 * Jeffreys' interval for a Poisson rate: quantiles of the gamma posterior of shape events + ½.
 * With no events the lower limit is above 0 in that form; here it goes down to the estimate, 0.
 * No exposure: not estimable.
 * Source: Brown, Cai & DasGupta 2003 (citation from memory).
 */
export function rateJeffreys(events: number, exposure: number, { level }: Level): Estimate {
  const limits = () => {
    const { lower, upper } = rateJeffreysLimits(events, level);
    return { lower: Math.min(lower, events), upper };
  };
  return rateEstimate(events, exposure, { level, method: 'rate-jeffreys', limits });
}

/** The equal-tailed limits of a Poisson mean under Jeffreys' prior, above 0 even at no events. */
export function rateJeffreysLimits(events: number, level: number): Interval {
  const tail = tailArea(level);
  return {
    lower: gammaQuantile(tail, events + 0.5),
    upper: gammaUpperQuantile(tail, events + 0.5),
  };
}

/** The reason given where a rate has no exposure. */
export const NO_EFFORT = 'No effort was recorded, so there is no rate to speak of.';

/** Why events over exposure is no rate, in a sentence; null when it is one. */
export function whyNoRate(events: number, exposure: number): string | null {
  if (!Number.isFinite(events) || !Number.isFinite(exposure) || events < 0 || exposure < 0)
    return `${events} events in an effort of ${exposure} are no counts.`;
  return exposure === 0 ? NO_EFFORT : null;
}

function rateEstimate(
  events: number,
  exposure: number,
  { level, method, limits }: Level & { method: string; limits: CountLimits },
): Estimate {
  const basis: Basis = { level, method, n: events, exposure, notes: [] };
  const reason = whyNoRate(events, exposure);
  if (reason !== null) return notEstimable(reason, basis);
  const { lower, upper } = limits(events, level);
  const rate = { estimate: events / exposure, lower: lower / exposure, upper: upper / exposure };
  return estimated({ ...basis, ...rate });
}
