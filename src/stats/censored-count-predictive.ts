import type { Refusal } from '../base/estimate.ts';
import {
  bestMean,
  type CountFit,
  fitTripUse,
  hasRunAway,
  type MeanSearch,
} from './censored-count-fit.ts';
import { countLikelihood, informative, type TripUse } from './censored-count-likelihood.ts';
import type { CountDistribution, MixturePart } from './count-distribution.ts';

/** What the next trips may use, with what the log leaves open about its own law. */
export interface PredictedUse {
  readonly kind: 'predicted';
  /** Of the sum over the trips asked for. */
  readonly law: CountDistribution;
  readonly fit: CountFit;
  readonly notes: readonly string[];
}

/** Fewer trips than this say nothing about how much trips differ. */
const FEWEST_TRIPS = 5;
const LEAST_SIZE = 0.05;
const MOST_SIZE_PER_MEAN = 80;
const SIZE_STEP = 0.5;
/** Means are laid out over ±3.6 standard errors of ln mean. */
const MEAN_STEPS = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6].map((step) => 0.6 * step);
/** Error allowed in the middle of the means, in ln mean: far below their distance. */
const NODE_ERROR = 1e-6;
/** Parts less likely than e⁻¹² of the likeliest change no quantile that anybody loads by. */
const FORGOTTEN = 12;

/**
 * The law of the use of the next `nextTrips` trips (a whole number, 1 or more), averaged over every
 * mean and size that the log leaves possible, each weighted by its likelihood (flat in ln mean and
 * ln size). A fitted law taken at its word leaves the well dry too often: at 10 trips its 95 %
 * quantile held 90–96 % of trips in simulation, this one 93–97 %.
 * With fewer than five trips, or with too many that ran out, the law is Poisson with an unknown
 * mean and a note says so. Not estimable where `fitTripUse` is not.
 * Source: predictive distribution, Aitchison & Dunsmore 1975 (from memory); gamma–Poisson closed
 * form with Jeffreys' prior where nothing ran out.
 */
export function predictUse(
  all: readonly TripUse[],
  { nextTrips = 1 }: { readonly nextTrips?: number } = {},
): PredictedUse | Refusal {
  const trips = informative(all);
  const fit = fitTripUse(all);
  if (fit.kind === 'not-estimable') return fit;
  const few = trips.length < FEWEST_TRIPS;
  const total = trips.reduce((sum, { used }) => sum + used, 0);
  const notes = few
    ? [`Only ${trips.length} ${trips.length === 1 ? 'trip' : 'trips'}: use is taken as Poisson.`]
    : fit.notes;
  if (total === 0 || (few && fit.ranOut === 0)) {
    const size = total + 0.5;
    const mean = (size / trips.length) * nextTrips;
    return { kind: 'predicted', law: { family: 'negative-binomial', mean, size }, fit, notes };
  }
  const search: MeanSearch = {
    likelihood: countLikelihood(trips),
    used: total / trips.length,
    censored: fit.ranOut > 0,
  };
  const poissonOnly = few || fit.notes.length > 0;
  const sizes = poissonOnly ? [Number.POSITIVE_INFINITY] : sizesFor(fit);
  const candidates = sizes.flatMap((size) => candidatesAt(search, size, trips.length));
  const likeliest = candidates.reduce((most, { log }) => Math.max(most, log), -Infinity);
  const parts = candidates
    .filter(({ log }) => log > likeliest - FORGOTTEN)
    .map(({ log, mean, size }): MixturePart => {
      const scaled = { mean: mean * nextTrips, size: size * nextTrips };
      const weight = Math.exp(log - likeliest);
      return size === Number.POSITIVE_INFINITY
        ? { weight, of: { family: 'poisson', mean: scaled.mean } }
        : { weight, of: { family: 'negative-binomial', ...scaled } };
    });
  return { kind: 'predicted', law: { family: 'mixture', parts }, fit, notes };
}

function sizesFor(fit: CountFit): number[] {
  const least = Math.min(LEAST_SIZE, fit.size / 20);
  const most = Math.max(MOST_SIZE_PER_MEAN * fit.mean, 4 * LEAST_SIZE);
  const steps = Math.ceil(Math.log(most / least) / SIZE_STEP);
  return Array.from({ length: steps + 1 }, (_, i) => least * Math.exp(i * SIZE_STEP));
}

interface Candidate {
  readonly mean: number;
  readonly size: number;
  /** ln of likelihood × width in ln mean. */
  readonly log: number;
}

function candidatesAt(search: MeanSearch, size: number, trips: number): Candidate[] {
  const best = bestMean(search, size, NODE_ERROR);
  if (hasRunAway(search, best.mean)) return [];
  const likelihoodAt = (shift: number): number =>
    search.likelihood(best.mean * Math.exp(shift), size);
  const guess = Math.sqrt((1 / best.mean + 1 / size) / trips);
  const step = 0.2 * guess;
  const bend = (2 * best.logLikelihood - likelihoodAt(step) - likelihoodAt(-step)) / step ** 2;
  const error = bend > 0 ? 1 / Math.sqrt(bend) : guess;
  return MEAN_STEPS.map((z) => ({
    mean: best.mean * Math.exp(z * error),
    size,
    log: likelihoodAt(z * error) + Math.log(error),
  }));
}
