import { groupBy } from '../base/group-by.ts';
import { type Level, tCritical } from './interval-level.ts';
import { kaplanMeier, type SurvivalCurve, type SurvivalStep } from './kaplan-meier.ts';
import type { Life } from './kaplan-meier-lives.ts';

/** A life that shares its cluster (trip) with others. */
export interface ClusteredLife extends Life {
  readonly cluster: string;
}

/**
 * The Kaplan–Meier curve with limits that know that lives of one trip are alike: the standard error
 * at each time is the root of Σ over trips of (Σ of its lives' influence on the curve)², times
 * K/(K − 1), and the limits are on the log-log scale with Student's t on K − 1.
 * The curve itself is that of `kaplanMeier`. Fewer than two trips: Greenwood's, as there. Where the
 * curve has reached 0, or trips show no spread, there are no limits (null).
 * Source: Williams 1995, Biometrics 51:198 (variance from clusters, from memory); the influence of
 * a life is the derivative of Π(1 − d/n) by its weight.
 */
export function clusteredKaplanMeier(
  lives: readonly ClusteredLife[],
  { level }: Level,
): SurvivalCurve {
  const curve = kaplanMeier(lives, { level });
  const byTrip = [...groupBy(lives, ({ cluster }) => cluster).values()];
  if (byTrip.length < 2) return curve;
  const t = tCritical(level, byTrip.length - 1);
  const widening = byTrip.length / (byTrip.length - 1);
  const sums = byTrip.map(() => 0);
  const trips = byTrip.map((ofTrip) => ofTrip.map(({ time, event }) => ({ time, event })));
  const steps = curve.steps.map((step): SurvivalStep => {
    const { events, atRisk, survival } = step;
    if (survival === 0) return step;
    for (const [at, ofTrip] of trips.entries()) {
      const ended = ofTrip.filter(({ time, event }) => event && time === step.time).length;
      const watched = ofTrip.filter(({ time }) => time >= step.time).length;
      sums[at] = (sums[at] ?? 0) + (ended - (watched * events) / atRisk) / (atRisk - events);
    }
    const relative = Math.sqrt(widening * sums.reduce((sum, one) => sum + one * one, 0));
    return { ...step, standardError: survival * relative, ...limits(survival, relative, t) };
  });
  return { ...curve, steps };
}

/** Symmetrical on the log-log scale, so inside 0 to 1; null where there is no width to be had. */
function limits(survival: number, relative: number, t: number) {
  if (!(relative > 1e-12)) return { lower: null, upper: null };
  const stretch = Math.exp((t * relative) / Math.abs(Math.log(survival)));
  return { lower: survival ** stretch, upper: survival ** (1 / stretch) };
}
