import { type Refusal, refuse } from '../base/estimate.ts';
import {
  type CountLikelihood,
  countLikelihood,
  informative,
  type TripUse,
} from './censored-count-likelihood.ts';
import { minimise } from './minimise.ts';

/** The law of use per trip that makes a log's own numbers most likely. */
export interface CountFit {
  readonly kind: 'fitted';
  readonly family: 'poisson' | 'negative-binomial';
  readonly mean: number;
  /** Variance = mean + mean²/size; Infinity for Poisson. */
  readonly size: number;
  readonly logLikelihood: number;
  /** Trips that say something; one that ran out of nothing does not. */
  readonly trips: number;
  /** Trips that ran out, among them. */
  readonly ranOut: number;
  /** What a reader must know about the fit, in full sentences. */
  readonly notes: readonly string[];
}

/** Sizes below this, or above this many times the mean, are told apart from 0 or Poisson by no log. */
const LEAST_SIZE = 1e-3;
const MOST_SIZE_PER_MEAN = 1e4;
/** A mean so many times the mean of what was used has run away. */
const MOST_MEAN = 1e4;
const GRID_STEP = 0.5;
/** Error of ln mean that leaves no doubt which of two sizes half a step apart is likelier. */
const ROUGH = 1e-4;

/**
 * Fits a negative binomial law to the use of trips, some of which may have run out, by maximum
 * likelihood. The size is sought from a whole grid of starts, because on use with many zeros the
 * likelihood is flat towards Poisson and a local search from there never comes back.
 * Poisson where the trips vary no more than Poisson, or where so many ran out that their spread
 * cannot be told (a note says so); mean 0 where nothing was ever used or wanted.
 * Not estimable: no trips, or none that had enough.
 */
export function fitTripUse(all: readonly TripUse[]): CountFit | Refusal {
  const trips = informative(all);
  const likelihood = countLikelihood(trips);
  const ranOut = trips.filter((trip) => trip.ranOut).length;
  if (all.length === 0) return refuse('There are no trips.');
  if (ranOut === trips.length)
    return refuse('Every trip ran out, so nothing tells how much would have been enough.');
  const used = trips.reduce((sum, trip) => sum + trip.used, 0) / trips.length;
  const common = { kind: 'fitted', trips: trips.length, ranOut } as const;
  const poisson = { family: 'poisson', size: Number.POSITIVE_INFINITY } as const;
  if (used === 0) return { ...common, ...poisson, mean: 0, logLikelihood: 0, notes: [] };
  const search: MeanSearch = { likelihood, used, censored: ranOut > 0 };
  const best = bestSize(search);
  if (best !== null && !hasRunAway(search, best.mean))
    return { ...common, ...best, family: 'negative-binomial', notes: [] };
  const notes =
    best === null
      ? []
      : ['So many trips ran out that their spread cannot be told; it is taken as Poisson.'];
  return { ...common, ...poisson, ...bestMean(search, Number.POSITIVE_INFINITY), notes };
}

/** What the search for a mean goes by. */
export interface MeanSearch {
  readonly likelihood: CountLikelihood;
  /** Mean of what was used: the mean itself where nothing ran out, else a lower bound of it. */
  readonly used: number;
  readonly censored: boolean;
}

/** The best mean for one size, and the log-likelihood there. */
export interface BestMean {
  readonly mean: number;
  readonly logLikelihood: number;
}

/**
 * The most likely mean for a given size (Infinity for Poisson). A mean that runs away, because the
 * largest uses are all of trips that ran out, stops at 10,000 times what was used.
 * @param tolerance error allowed in ln mean
 */
export function bestMean(
  { likelihood, used, censored }: MeanSearch,
  size: number,
  tolerance = 0,
): BestMean {
  if (!censored) return { mean: used, logLikelihood: likelihood(used, size) };
  const { x, value } = minimise((log) => -likelihood(used * Math.exp(log), size), {
    lower: 0,
    upper: Math.log(MOST_MEAN),
    tolerance,
  });
  return { mean: used * Math.exp(x), logLikelihood: -value };
}

/** Whether a mean stopped at the bound of its search. */
export const hasRunAway = ({ used }: MeanSearch, mean: number): boolean =>
  mean > 0.99 * used * MOST_MEAN;

/** The best of all peaks over ln size; null where the likelihood still rises towards Poisson. */
function bestSize(search: MeanSearch): (BestMean & { readonly size: number }) | null {
  const at = (logSize: number): number => -bestMean(search, Math.exp(logSize)).logLikelihood;
  const roughly = (logSize: number): number =>
    -bestMean(search, Math.exp(logSize), ROUGH).logLikelihood;
  const top = Math.log(MOST_SIZE_PER_MEAN * (search.used + 1));
  const grid: { logSize: number; cost: number }[] = [];
  for (let logSize = Math.log(LEAST_SIZE); logSize < top + GRID_STEP; logSize += GRID_STEP)
    grid.push({ logSize, cost: roughly(logSize) });
  const peaks = grid.flatMap(({ logSize, cost }, i) => {
    const [before, after] = [grid[i - 1]?.cost ?? cost + 1, grid[i + 1]?.cost];
    if (after === undefined || !(cost <= before && cost <= after)) return [];
    const found = minimise(at, { lower: logSize - GRID_STEP, upper: logSize + GRID_STEP });
    return [found];
  });
  const best = peaks.sort((a, b) => a.value - b.value)[0];
  const poisson = -bestMean(search, Number.POSITIVE_INFINITY).logLikelihood;
  // A peak that beats Poisson by rounding only is none.
  if (best === undefined || !(best.value < poisson - 1e-9 * (1 + Math.abs(poisson)))) return null;
  const size = Math.exp(best.x);
  return { ...bestMean(search, size), size };
}
