import { type Interval, type Refusal, refuse } from '../base/estimate.ts';
import { type Level, normalCritical, tCritical } from './interval-level.ts';

/** A random-effects mean as prediction needs it; `n` counts the studies. */
export interface PooledMean {
  readonly estimate: number;
  readonly se: number;
  readonly tau2: number;
  readonly n: number;
}

/**
 * Where the true effect of one further study, from the same kind of studies, would lie: Student's t
 * on K − 2 degrees of freedom. Wider than the interval of the mean however many studies there are.
 * Not estimable with fewer than three studies.
 * Source: Higgins, Thompson & Spiegelhalter 2009, J. R. Stat. Soc. A 172:137.
 */
export function predictionInterval(pooled: PooledMean, { level }: Level): Interval | Refusal {
  if (pooled.n < 3)
    return refuse('It takes three studies or more to say where the next would lie.');
  return around(pooled, tCritical(level, pooled.n - 2));
}

/** The same with the normal quantile, for comparison with other programs; too short. */
export function predictionIntervalNormal(pooled: PooledMean, { level }: Level): Interval {
  return around(pooled, normalCritical(level));
}

function around({ estimate, se, tau2 }: PooledMean, critical: number): Interval {
  const margin = critical * Math.sqrt(se ** 2 + tau2);
  return { lower: estimate - margin, upper: estimate + margin };
}
