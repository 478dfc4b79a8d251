/**
 * The intervals that textbooks give a ratio of totals over trips, all on the plain linearised
 * variance. For comparison; the project's own is `ratioTrip`.
 */
import type { Estimate, Interval } from '../base/estimate.ts';
import { type LinearisedLimits, linearisedEstimate } from './clustered-linearised.ts';
import { rateTotals, type TripRate } from './clustered-rate.ts';
import { type Level, normalCritical } from './interval-level.ts';

/**
 * R ± t·se; the lower limit may pass 0.
 * Not estimable: one trip, no event, or the same rate on every trip.
 * Source: Cochran 1977 ch. 6.
 */
export function ratioWaldT(trips: readonly TripRate[], { level }: Level): Estimate {
  return surveyEstimate(trips, { level, method: 'ratio-wald-t' }, ({ ratio, se, t }) => ({
    lower: ratio - t * se,
    upper: ratio + t * se,
  }));
}

/**
 * R·exp(± t·se/R), or with z in place of t.
 * Not estimable: one trip, no event, or the same rate on every trip.
 * Source: Cochran 1977 ch. 6; delta method.
 */
export function ratioLogPlain(
  trips: readonly TripRate[],
  { level, critical }: Level & { critical: 't' | 'z' },
): Estimate {
  return surveyEstimate(trips, { level, method: `ratio-log-plain-${critical}` }, (figure) => {
    const quantile = critical === 't' ? figure.t : normalCritical(level);
    const spread = Math.exp((quantile * figure.se) / figure.ratio);
    return { lower: figure.ratio / spread, upper: figure.ratio * spread };
  });
}

/**
 * The ratios R for which the trips' mean of events − R·exposure is within t standard errors of 0.
 * Not estimable: one trip, no event, the same rate on every trip, or an exposure so uneven over so
 * few trips that the limits have no end.
 * Source: Fieller 1954.
 */
export function ratioFieller(trips: readonly TripRate[], { level }: Level): Estimate {
  return surveyEstimate(trips, { level, method: 'ratio-fieller' }, ({ ratio, denominator, t }) =>
    fiellerLimits(
      trips.filter(({ exposure }) => exposure > 0),
      { ratio, total: denominator, t },
    ),
  );
}

function fiellerLimits(
  trips: readonly TripRate[],
  { ratio, total, t }: { ratio: number; total: number; t: number },
): Interval | string {
  const count = trips.length;
  const mean = total / count;
  let [xx, xy, yy] = [0, 0, 0];
  for (const { events, exposure } of trips) {
    const x = (exposure - mean) / total;
    const y = (events - ratio * mean) / total;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const scale = (t * t * count) / (count - 1);
  const uneven = scale * xx;
  if (uneven >= 1)
    return 'Effort differs too much over so few trips: the limits of this method have no end.';
  const residual = yy - 2 * ratio * xy + ratio * ratio * xx - scale * (yy * xx - xy * xy);
  const half = Math.sqrt(scale * Math.max(0, residual));
  const middle = ratio - scale * xy;
  return { lower: (middle - half) / (1 - uneven), upper: (middle + half) / (1 - uneven) };
}

function surveyEstimate(
  trips: readonly TripRate[],
  { level, method }: Level & { method: string },
  limits: LinearisedLimits,
): Estimate {
  const totals = rateTotals(trips);
  const [n, exposure] = typeof totals === 'string' ? [0, 0] : [totals.clusters, totals.denominator];
  return linearisedEstimate(totals, { level, method, n, exposure }, limits);
}
