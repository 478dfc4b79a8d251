import { sum } from 'simple-statistics';
import { type Basis, estimated, notEstimable } from '../base/estimate.ts';
import { bootstrapIntervals } from './bootstrap-interval.ts';
import { bootstrapTotals, type DrawnTotals, drawnRatios } from './bootstrap-totals.ts';
import { type ClusteredEstimate, NO_SPREAD, ONE_CLUSTER } from './clustered-estimate.ts';
import type { TripRate } from './clustered-rate.ts';
import type { Level } from './interval-level.ts';
import { NO_EFFORT, whyNoRate } from './interval-rate.ts';
import { jackknifeRatio } from './jackknife-ratio.ts';

/** Which draws: the seed (0 to 4294967295) and how many (10,000 where not given). */
export interface BootstrapOptions extends Level {
  readonly seed: number;
  readonly draws?: number;
}

const DRAWS = 10_000;
const FEW_TRIPS = 10;
const FEW =
  'few trips: redrawing fewer than 10 trips shows too little of how trips differ, so the interval may be too narrow.';

/**
 * Events over exposure with a BCa bootstrap interval, `bootstrap-bca`: whole trips are redrawn,
 * seeded; the acceleration comes from leaving out one trip at a time; draws equal to the rate count
 * half as below it. Trips without exposure are left out. Fewer than two trips, no events, or the
 * same rate on every trip (redrawing then shows no spread): not estimable.
 * Source: Efron 1987; Davison & Hinkley 1997 ch. 5. Fewer than 10 trips being few: common practice,
 * no source.
 */
export function ratioBootstrapBca(
  trips: readonly TripRate[],
  { level, seed, draws = DRAWS }: BootstrapOptions,
): ClusteredEstimate {
  const fished = trips.filter(({ exposure }) => exposure !== 0);
  const events = fished.map((trip) => trip.events);
  const exposures = fished.map((trip) => trip.exposure);
  const exposure = sum(exposures);
  const clusters = fished.length;
  const basis: Basis = { level, method: 'bootstrap-bca', n: clusters, exposure, notes: [] };
  const over = { clusters, designEffect: null, degreesOfFreedom: null, effectiveN: null };
  const reason = whyNoBootstrap(fished);
  const jackknife = jackknifeRatio(events, exposures);
  if (reason !== null || jackknife === null)
    return { ...notEstimable(reason ?? ONE_CLUSTER, basis), ...over };
  const estimate = sum(events) / exposure;
  const group = { trips: fished.map((_, i) => i), numerators: events, denominators: exposures };
  const drawn = bootstrapTotals([group], { trips: clusters, draws, seed });
  const { bca } = bootstrapIntervals({
    estimate,
    replicates: drawnRatios(drawn[0] as DrawnTotals),
    acceleration: jackknife.acceleration,
    level,
    midTies: true,
  });
  const lower = Math.min(bca.lower, estimate);
  const upper = Math.max(bca.upper, estimate);
  const notes = clusters < FEW_TRIPS ? [FEW] : [];
  return { ...estimated({ ...basis, notes, estimate, lower, upper }), ...over };
}

/** Why trips with exposure cannot be redrawn to any use; null when they can. */
function whyNoBootstrap(trips: readonly TripRate[]): string | null {
  for (const { events, exposure } of trips) {
    const reason = whyNoRate(events, exposure);
    if (reason !== null) return reason;
  }
  const rates = trips.map(({ events, exposure }) => events / exposure);
  const [first] = rates;
  if (first === undefined) return NO_EFFORT;
  if (rates.length === 1) return ONE_CLUSTER;
  if (rates.every((rate) => rate === 0))
    return 'No event was seen, and redrawing trips cannot bring one.';
  return rates.every((rate) => Math.abs(rate - first) <= 1e-12 * first) ? NO_SPREAD : null;
}
