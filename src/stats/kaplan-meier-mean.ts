import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { normalCritical } from './interval-level.ts';
import type { SurvivalCurve } from './kaplan-meier.ts';

/**
 * The mean life up to a horizon (the restricted mean): the area under the curve from 0 to `until`,
 * in the unit of time, with a normal interval held to 0 … `until`. By default `until` is the last
 * time watched. Not estimable without lives, or for a horizon that nobody was watched to while the
 * curve still stands above 0.
 * Source: Irwin 1949, J. Hyg. 47:188; variance: Klein & Moeschberger 2003, eq. 4.5.2.
 */
export function kaplanMeierMean(
  curve: SurvivalCurve,
  options: { readonly until?: number } = {},
): Estimate {
  const until = options.until ?? curve.lastTime;
  const basis = {
    level: curve.level,
    method: 'kaplan-meier-restricted-mean',
    n: curve.lives,
    exposure: null,
    notes: [],
  };
  if (curve.lives === 0) return notEstimable('There is nothing to take a mean of.', basis);
  const ends = (curve.steps.at(-1)?.survival ?? 1) === 0;
  if (until > curve.lastTime && !ends)
    return notEstimable('Nothing was watched for as long as the horizon of this mean.', basis);
  const { mean, variance } = areaUnder(curve, until);
  const reach = normalCritical(curve.level) * Math.sqrt(variance);
  return estimated({
    ...basis,
    estimate: mean,
    lower: Math.max(0, mean - reach),
    upper: Math.min(until, mean + reach),
  });
}

/** Walks back from the horizon, because each step's variance needs the area that lies after it. */
function areaUnder(curve: SurvivalCurve, until: number): { mean: number; variance: number } {
  let areaAfter = 0;
  let variance = 0;
  let end = until;
  for (const step of curve.steps.filter(({ time }) => time < until).reverse()) {
    areaAfter += step.survival * (end - step.time);
    const left = step.atRisk - step.events;
    if (left > 0) variance += (areaAfter ** 2 * step.events) / (step.atRisk * left);
    end = step.time;
  }
  return { mean: areaAfter + end, variance };
}
