/**
 * The intervals that survey statistics gives a proportion over clusters, all on the plain
 * linearised variance. For comparison; the project's own is `wilsonTrip`.
 */
import type { Estimate } from '../base/estimate.ts';
import {
  type LinearisedFigure,
  type LinearisedLimits,
  linearisedEstimate,
} from './clustered-linearised.ts';
import { proportionTotals, type TripProportion } from './clustered-proportion.ts';
import { type Level, normalCritical, tCritical } from './interval-level.ts';
import { clopperPearsonLimits } from './interval-proportion-clopper-pearson.ts';
import { wilsonLimits } from './interval-proportion-wilson.ts';
import { findRoot } from './root.ts';
import { log1pMinus } from './stirling.ts';

/** The level, and whether Student's t on trips − 1 or the normal z stands behind the limits. */
export interface SurveyOptions extends Level {
  readonly critical: 't' | 'z';
}

/**
 * Wilson's interval on the effective number p(1 − p)/v, with t or z.
 * Not estimable: one trip, or trips that all have the same share (as all or none).
 * Source: Kott & Carr 1997; Dean & Pagano 2015.
 */
export function wilsonEffectiveN(
  trips: readonly TripProportion[],
  { level, critical }: SurveyOptions,
): Estimate {
  return surveyEstimate(trips, { level, method: `wilson-effective-n-${critical}` }, (figure) => {
    const n = effectiveN(figure);
    return wilsonLimits(figure.ratio * n, n, critical === 't' ? figure.t : normalCritical(level));
  });
}

/**
 * Exact binomial limits on the effective number after its adjustment for degrees of freedom. With
 * `t` the reference is Student's t on units − 1, with `z` the normal.
 * Not estimable: one trip, or trips that all have the same share.
 * Source: Korn & Graubard 1998.
 */
export function kornGraubard(
  trips: readonly TripProportion[],
  { level, critical }: SurveyOptions,
): Estimate {
  return surveyEstimate(trips, { level, method: `korn-graubard-${critical}` }, (figure) =>
    exactOn(figure, kornGraubardN(figure, critical)),
  );
}

/** The effective number that `kornGraubard` uses. */
export function kornGraubardN(figure: LinearisedFigure, critical: 't' | 'z'): number {
  const { denominator, level, t } = figure;
  const reference = critical === 't' ? tCritical(level, denominator - 1) : normalCritical(level);
  return effectiveN(figure) * (reference / t) ** 2;
}

/**
 * Exact binomial limits on the effective number as it stands.
 * Not estimable: one trip, or trips that all have the same share.
 * Source: Korn & Graubard 1998, before their adjustment.
 */
export function clopperPearsonEffectiveN(
  trips: readonly TripProportion[],
  { level }: Level,
): Estimate {
  return surveyEstimate(trips, { level, method: 'clopper-pearson-effective-n' }, (figure) =>
    exactOn(figure, effectiveN(figure)),
  );
}

/**
 * p ± t·se; the limits may pass 0 or 1.
 * Not estimable: one trip, or trips that all have the same share.
 * Source: Cochran 1977 ch. 6.
 */
export function proportionWaldT(trips: readonly TripProportion[], { level }: Level): Estimate {
  return surveyEstimate(trips, { level, method: 'proportion-wald-t' }, ({ ratio, se, t }) => ({
    lower: ratio - t * se,
    upper: ratio + t * se,
  }));
}

/**
 * t limits on the logit scale.
 * Not estimable: one trip, or trips that all have the same share.
 * Source: delta method; Korn & Graubard 1998 compare it.
 */
export function proportionLogitT(trips: readonly TripProportion[], { level }: Level): Estimate {
  return surveyEstimate(trips, { level, method: 'proportion-logit-t' }, (figure) => {
    const { ratio, numerator, denominator, se, t } = figure;
    const odds = numerator / (denominator - numerator);
    const spread = Math.exp((t * se) / (ratio * (1 - ratio)));
    return { lower: odds / (spread + odds), upper: 1 / (1 + 1 / (odds * spread)) };
  });
}

/**
 * t limits on the scale of arcsin √p, held between 0 and 1.
 * Not estimable: one trip, or trips that all have the same share.
 * Source: delta method, textbook form.
 */
export function proportionArcsineT(trips: readonly TripProportion[], { level }: Level): Estimate {
  return surveyEstimate(trips, { level, method: 'proportion-arcsine-t' }, ({ ratio, se, t }) => {
    const middle = Math.asin(Math.sqrt(ratio));
    const half = (t * se) / (2 * Math.sqrt(ratio * (1 - ratio)));
    return {
      lower: Math.sin(Math.max(0, middle - half)) ** 2,
      upper: Math.sin(Math.min(Math.PI / 2, middle + half)) ** 2,
    };
  });
}

/**
 * The proportions whose binomial deviance, divided by the design effect over independent units less
 * one, stays within t². Not estimable: one trip, or trips that all have the same share.
 * Source: Rao & Scott 1984 (scaled likelihood; citation from memory), t in place of z.
 */
export function proportionScaledLikelihood(
  trips: readonly TripProportion[],
  { level }: Level,
): Estimate {
  return surveyEstimate(trips, { level, method: 'proportion-scaled-likelihood' }, (figure) => {
    const { ratio: p, denominator, t } = figure;
    const allowed = (t * t) / effectiveN(figure) / (1 - 1 / denominator);
    // The deviance p ln(p/q) + (1 − p) ln((1 − p)/(1 − q)), without its cancellation near q = p.
    const beyond = (q: number) =>
      -2 * (p * log1pMinus((q - p) / p) + (1 - p) * log1pMinus((p - q) / (1 - p))) - allowed;
    const limit = (end: number) =>
      findRoot(beyond, { lower: Math.min(p, end), upper: Math.max(p, end) });
    return { lower: limit(0), upper: limit(1) };
  });
}

const effectiveN = ({ ratio, variance }: LinearisedFigure): number =>
  (ratio * (1 - ratio)) / variance;

const exactOn = ({ ratio, level }: LinearisedFigure, n: number) =>
  clopperPearsonLimits(ratio * n, n, level);

function surveyEstimate(
  trips: readonly TripProportion[],
  { level, method }: Level & { method: string },
  limits: LinearisedLimits,
): Estimate {
  const totals = proportionTotals(trips);
  const n = typeof totals === 'string' ? 0 : totals.denominator;
  return linearisedEstimate(totals, { level, method, n, exposure: null }, limits);
}
