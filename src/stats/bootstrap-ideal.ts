import { sum } from 'simple-statistics';
import type { Interval } from '../base/estimate.ts';
import { bcaLevels } from './bootstrap-interval.ts';
import { normalQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import { jackknifeRatio } from './jackknife-ratio.ts';

/** BCa limits and the shares at which they were read off. */
export interface BcaInterval extends Interval {
  readonly lowerLevel: number;
  readonly upperLevel: number;
}

/** The whole bootstrap distribution of a ratio of totals, no random number in it. */
export interface IdealBootstrap {
  readonly estimate: number;
  readonly distinctResamples: number;
  readonly bootMean: number;
  readonly bootBias: number;
  readonly bootSe: number;
  readonly probBelowEstimate: number;
  readonly probEqualEstimate: number;
  readonly percentile: Interval;
  readonly basic: Interval;
  /** Normal quantile of the chance below the estimate … */
  readonly z0Strict: number;
  /** … and with half the chance of the estimate itself. */
  readonly z0MidTies: number;
  readonly acceleration: number;
  readonly bcaStrict: BcaInterval;
  readonly bcaMidTies: BcaInterval;
  /** Of the logarithm of the ratio; null where a resample has no event. */
  readonly logScale: { readonly bootBias: number; readonly bootSe: number } | null;
}

/** One value a resample can give, and its chance. */
interface Outcome {
  readonly value: number;
  readonly chance: number;
}

/** More trips than this have too many resamples to go through (10 have 92,378). */
const MOST_TRIPS = 10;

/**
 * Goes through every resample of a few trips: what a seeded bootstrap of the ratio comes to with
 * draws without end. Quantiles are the smallest value whose cumulative chance reaches the share.
 * Null for fewer than 2 or more than 10 trips.
 * Source: Davison & Hinkley 1997 ch. 2; Efron 1987 (BCa).
 * @param numerators one a trip, 0 or more
 * @param denominators one a trip, above 0
 */
export function idealBootstrapRatio(
  numerators: readonly number[],
  denominators: readonly number[],
  { level }: Level,
): IdealBootstrap | null {
  const jackknife = jackknifeRatio(numerators, denominators);
  if (jackknife === null || numerators.length > MOST_TRIPS) return null;
  const outcomes = allOutcomes(numerators, denominators);
  const estimate = sum(numerators) / sum(denominators);
  const { mean, sd } = momentsOf(outcomes);
  const same = ({ value }: Outcome) => Math.abs(value - estimate) < 1e-12 * Math.abs(estimate);
  const equal = sum(outcomes.filter(same).map(({ chance }) => chance));
  const isBelow = (outcome: Outcome) => outcome.value < estimate && !same(outcome);
  const below = sum(outcomes.filter(isBelow).map(({ chance }) => chance));
  const quantile = quantileOf(outcomes);
  const [low, high] = [quantile(tailArea(level)), quantile(1 - tailArea(level))];
  const acceleration = jackknife.acceleration;
  const bca = (z0: number): BcaInterval => {
    const [lowerLevel, upperLevel] = bcaLevels({ z0, acceleration, level });
    return { lowerLevel, upperLevel, lower: quantile(lowerLevel), upper: quantile(upperLevel) };
  };
  const [z0Strict, z0MidTies] = [normalQuantile(below), normalQuantile(below + equal / 2)];
  return {
    ...{ estimate, distinctResamples: outcomes.length },
    ...{ bootMean: mean, bootBias: mean - estimate, bootSe: sd },
    ...{ probBelowEstimate: below, probEqualEstimate: equal },
    percentile: { lower: low, upper: high },
    basic: { lower: 2 * estimate - high, upper: 2 * estimate - low },
    ...{ z0Strict, z0MidTies, acceleration, bcaStrict: bca(z0Strict), bcaMidTies: bca(z0MidTies) },
    logScale: logScaleOf(outcomes, estimate),
  };
}

/** Every way to draw as many trips as there are, sorted by the ratio it gives. */
function allOutcomes(numerators: readonly number[], denominators: readonly number[]): Outcome[] {
  const count = numerators.length;
  const outcomes: Outcome[] = [];
  const draw = (trip: number, left: number, sums: { y: number; x: number; chance: number }) => {
    const [y, x] = [numerators[trip] as number, denominators[trip] as number];
    for (let times = trip === count - 1 ? left : 0, most = left; times <= most; times++) {
      // Of the draws still open, each falls on this trip with the same chance 1/count.
      const chance = sums.chance * (ways(left, times) / count ** times);
      const next = { y: sums.y + times * y, x: sums.x + times * x, chance };
      if (trip < count - 1) draw(trip + 1, left - times, next);
      else outcomes.push({ value: next.y / next.x, chance });
    }
  };
  draw(0, count, { y: 0, x: 0, chance: 1 });
  return outcomes.sort((a, b) => a.value - b.value);
}

/** Number of ways to choose `k` of `n`, exact for the few trips here. */
function ways(n: number, k: number): number {
  let product = 1;
  for (let i = 1; i <= k; i++) product = (product * (n - k + i)) / i;
  return product;
}

function quantileOf(outcomes: readonly Outcome[]): (share: number) => number {
  let reachedSoFar = 0;
  const cumulative = outcomes.map(({ chance }) => {
    reachedSoFar += chance;
    return reachedSoFar;
  });
  return (share) => {
    const at = cumulative.findIndex((reached) => reached >= share - 1e-13);
    return (outcomes[at] ?? (outcomes.at(-1) as Outcome)).value;
  };
}

function momentsOf(outcomes: readonly Outcome[]): { mean: number; sd: number } {
  const mean = sum(outcomes.map(({ value, chance }) => value * chance));
  const variance = sum(outcomes.map(({ value, chance }) => chance * (value - mean) ** 2));
  return { mean, sd: Math.sqrt(variance) };
}

function logScaleOf(outcomes: readonly Outcome[], estimate: number): IdealBootstrap['logScale'] {
  if ((outcomes[0]?.value ?? 0) <= 0) return null;
  const logs = outcomes.map(({ value, chance }) => ({ value: Math.log(value), chance }));
  const { mean, sd } = momentsOf(logs);
  return { bootBias: mean - Math.log(estimate), bootSe: sd };
}
