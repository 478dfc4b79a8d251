import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import type { SurvivalCurve } from './kaplan-meier.ts';

/** When a curve has fallen to a height; null where it never falls so far. */
export interface SurvivalQuantile {
  readonly time: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Heights nearer than this are the same height: products of ratios carry rounding. */
const SAME_HEIGHT = 1e-9;

/**
 * The time by which a share `probability` (0 to 1) of the lives has ended, with limits read off the
 * curve's own limits at the same height (so they carry the curve's level and scale).
 * Each of the three is the first time at or below the height; where the curve rests exactly on it,
 * the middle of that rest, which ends at the next step or at the last time watched. null: never
 * reached, so all that can be said is "later than the last time watched".
 * Source: Brookmeyer & Crowley 1982, Biometrics 38:29; resting rule: common practice, no source.
 */
export function kaplanMeierQuantile(curve: SurvivalCurve, probability: number): SurvivalQuantile {
  const height = 1 - probability;
  const reached = (heightOf: (step: SurvivalCurve['steps'][number]) => number | null) =>
    firstAtOrBelow(
      height,
      curve.steps.map((step) => ({ time: step.time, height: heightOf(step) })),
      curve.lastTime,
    );
  return {
    time: reached((step) => step.survival),
    lower: reached((step) => step.lower),
    upper: reached((step) => step.upper),
  };
}

/**
 * The median life as an estimate. A lower limit that the curve cannot give is 0, an upper one
 * Infinity. Not estimable where fewer than half of the lives are seen to end.
 * Source: as for `kaplanMeierQuantile`.
 */
export function kaplanMeierMedian(curve: SurvivalCurve): Estimate {
  const { time, lower, upper } = kaplanMeierQuantile(curve, 0.5);
  const basis = {
    level: curve.level,
    method: `kaplan-meier-${curve.limits}`,
    n: curve.lives,
    exposure: null,
    notes: [],
  };
  if (curve.lives === 0) return notEstimable('There is nothing to take a median of.', basis);
  if (time === null)
    return notEstimable(
      'Fewer than half are seen to end, so the median lies beyond the longest time watched.',
      basis,
    );
  return estimated({
    ...basis,
    estimate: time,
    lower: lower ?? 0,
    upper: upper ?? Number.POSITIVE_INFINITY,
  });
}

interface Point {
  readonly time: number;
  readonly height: number | null;
}

function firstAtOrBelow(height: number, points: readonly Point[], lastTime: number): number | null {
  const found = points.findIndex((p) => p.height !== null && p.height <= height + SAME_HEIGHT);
  const point = points[found];
  if (point === undefined || point.height === null) return null;
  if (point.height < height - SAME_HEIGHT) return point.time;
  const next = points
    .slice(found)
    .find((p) => p.height !== null && p.height < height - SAME_HEIGHT);
  return (point.time + (next?.time ?? lastTime)) / 2;
}
