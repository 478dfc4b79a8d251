import { type Interval, type Refusal, refuse } from '../base/estimate.ts';
import { chiSquareQuantile } from './distributions.ts';
import type { Level } from './interval-level.ts';
import {
  type AgeScale,
  checkHistory,
  type WearStretch,
  type WearTotals,
  wearTotals,
} from './power-law-history.ts';
import { profileShape } from './power-law-likelihood.ts';
import { findRoot } from './root.ts';

/** A power-law process of breaks: by age t a spool is expected to have broken (t/theta)^shape times. */
export interface PowerLawFit extends PowerLaw {
  readonly kind: 'fitted';
  /** Profile-likelihood limits of the shape; `upper` may be Infinity, `lower` 0. */
  readonly shapeLimits: Interval;
  readonly logLikelihood: number;
  readonly breaks: number;
  readonly level: number;
}

export interface PowerLaw {
  /** Above 1: breaks come faster as the line ages. */
  readonly shape: number;
  /** The age by which one break is expected, in the unit of the ages. */
  readonly theta: number;
  /** Breaks expected by age 1, theta^(−shape); 0 where that is too small to write down. */
  readonly lambda: number;
}

/** Shapes outside these are told apart from 0 and Infinity by no log. */
const LEAST_SHAPE = 1e-4;
const MOST_SHAPE = 1e5;
/** How far from a likely shape one is looked for first, in ln shape. */
const NEAR = 0.5;

/**
 * Fits a power-law (Crow/AMSAA) process to the breaks of one or many spools by maximum likelihood,
 * each spool watched to its own age. A break does not end a spool's life: the line is retied and is
 * as old as before.
 * @param options `scale`: ages exact or grouped; `level` of the profile-likelihood interval.
 * Not estimable: nothing broke; all breaks in the very first step, or all at the oldest age watched
 * (the shape runs away to 0 or to infinity). Throws where a history contradicts itself.
 * Source: Crow 1974; NIST/SEMATECH e-Handbook of Statistical Methods, 8.1.7.2 and 8.4.5.2.
 */
export function fitPowerLaw(
  stretches: readonly WearStretch[],
  options: Level & { readonly scale: AgeScale },
): PowerLawFit | Refusal {
  checkHistory(stretches, options.scale);
  const totals = wearTotals(stretches);
  const found = powerLawOf(totals, options.scale);
  if (found.kind === 'not-estimable') return found;
  const { logLikelihood } = profileShape(totals, options.scale, found.shape);
  return {
    ...found,
    shapeLimits: shapeLimits(totals, options, found.shape),
    logLikelihood,
    breaks: totals.breakCount,
    level: options.level,
  };
}

/**
 * The fit alone, without limits, from ages already added up; see `fitPowerLaw`.
 * @param near a shape that this one is likely to lie near, where one is known: it is looked for
 * there first, and wherever it is found it is the same
 */
export function powerLawOf(
  totals: WearTotals,
  scale: AgeScale,
  near: number | null = null,
): (PowerLaw & { readonly kind: 'fitted' }) | Refusal {
  if (totals.breakCount === 0) return refuse('Nothing broke, so nothing tells how wear grows.');
  const slope = (logShape: number): number => profileShape(totals, scale, Math.exp(logShape)).slope;
  if (near !== null) {
    const around = { lower: Math.log(near) - NEAR, upper: Math.log(near) + NEAR };
    if (slope(around.lower) > 0 && slope(around.upper) < 0)
      return atShape(totals, scale, Math.exp(findRoot(slope, around)));
  }
  const bounds = { lower: Math.log(LEAST_SHAPE), upper: Math.log(MOST_SHAPE) };
  if (slope(bounds.lower) <= 0)
    return refuse(
      'Everything broke at the very start of its life, so nothing tells how wear grows.',
    );
  if (slope(bounds.upper) >= 0)
    return refuse('Everything broke at the oldest age watched, so nothing tells how wear grows.');
  return atShape(totals, scale, Math.exp(findRoot(slope, bounds)));
}

function atShape(totals: WearTotals, scale: AgeScale, shape: number) {
  const { logTheta } = profileShape(totals, scale, shape);
  const [theta, lambda] = [Math.exp(logTheta), Math.exp(-shape * logTheta)];
  return { kind: 'fitted', shape, theta, lambda } as const;
}

/** Where twice the log-likelihood has fallen by the chi-square quantile on 1 degree of freedom. */
function shapeLimits(
  totals: WearTotals,
  { level, scale }: Level & { readonly scale: AgeScale },
  shape: number,
): Interval {
  const height = (logShape: number): number =>
    profileShape(totals, scale, Math.exp(logShape)).logLikelihood;
  const floor = height(Math.log(shape)) - chiSquareQuantile(level, 1) / 2;
  const above = (logShape: number): number => height(logShape) - floor;
  const [least, best, most] = [LEAST_SHAPE, shape, MOST_SHAPE].map(Math.log) as [
    number,
    number,
    number,
  ];
  return {
    lower: above(least) > 0 ? 0 : Math.exp(findRoot(above, { lower: least, upper: best })),
    upper:
      above(most) > 0
        ? Number.POSITIVE_INFINITY
        : Math.exp(findRoot(above, { lower: best, upper: most })),
  };
}

/** Breaks expected by `age` (0 or more), from a new spool. */
export function expectedBreaks({ shape, theta }: PowerLaw, age: number): number {
  return (age / theta) ** shape;
}
