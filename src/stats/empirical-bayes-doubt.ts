import type { Interval } from '../base/estimate.ts';
import { tailArea } from './interval-level.ts';
import { findRoot } from './root.ts';

/**
 * Priors that the options' records leave possible, instead of the one that fits best. Limits from
 * the best prior alone are too short: nothing in them says that how much options differ was itself
 * read off the same few options.
 */

/** A family of priors, ordered by how much options differ (`spread`, 0 to 1) and where they lie. */
export interface PriorFamily<Prior> {
  /** The place (log odds of a proportion, logarithm of a rate) that fits best at a spread. */
  readonly bestPlace: (spread: number) => number;
  readonly prior: (spread: number, place: number) => Prior;
  /** Log-likelihood plus ln of the density of places held possible beforehand. */
  readonly logWeight: (spread: number, place: number) => number;
}

export interface WeighedPrior<Prior> {
  readonly prior: Prior;
  /** How probable, given all records; all add up to 1. */
  readonly weight: number;
}

/** Nodes and weights of the five-point Gauss–Hermite rule for a standard normal. NIST DLMF 3.5. */
const NORMAL_NODES = [
  [0, 8 / 15],
  [Math.sqrt(5 - Math.sqrt(10)), (7 + 2 * Math.sqrt(10)) / 60],
  [-Math.sqrt(5 - Math.sqrt(10)), (7 + 2 * Math.sqrt(10)) / 60],
  [Math.sqrt(5 + Math.sqrt(10)), (7 - 2 * Math.sqrt(10)) / 60],
  [-Math.sqrt(5 + Math.sqrt(10)), (7 - 2 * Math.sqrt(10)) / 60],
] as const;

const SPREADS = 20;

/** Priors beyond this share of the whole weight change no printed digit. */
const KEPT = 0.9995;

/**
 * The priors worth counting with their weights, every spread from 0 to 1 being equally possible
 * beforehand: the more the options differ, the smaller the common rate's pull.
 * Source: Daniels 1999, Can. J. Stat. 27:567 (uniform shrinkage priors; from memory); Morris 1983,
 * J. Am. Stat. Assoc. 78:47 (why limits must count this doubt; from memory).
 */
export function weighedPriors<Prior>(family: PriorFamily<Prior>): WeighedPrior<Prior>[] {
  const found = Array.from({ length: SPREADS }, (_, j) => {
    // Small spreads matter most for the pull, so the places to look at crowd towards 0.
    const t = (j + 0.5) / SPREADS;
    return across(family, t ** 3, Math.log(3 * t * t));
  }).flat();
  const highest = Math.max(...found.map(({ logWeight }) => logWeight));
  const weighed = found
    .map(({ prior, logWeight }) => ({ prior, weight: Math.exp(logWeight - highest) }))
    .sort((a, b) => b.weight - a.weight);
  const all = weighed.reduce((sum, { weight }) => sum + weight, 0);
  let counted = 0;
  const kept = weighed.filter(({ weight }) => {
    const needed = counted < KEPT * all;
    if (needed) counted += weight;
    return needed;
  });
  return kept.map(({ prior, weight }) => ({ prior, weight: weight / counted }));
}

/** Priors of one spread at five places around the best. */
function across<Prior>(family: PriorFamily<Prior>, spread: number, logStep: number) {
  const best = family.bestPlace(spread);
  const height = (step: number): number => family.logWeight(spread, best + step);
  const bend = -(height(STEP) - 2 * height(0) + height(-STEP)) / STEP ** 2;
  // Where the weight hardly falls off, the step is that of a single trial.
  const width = 1 / Math.sqrt(Math.max(bend, 0.25));
  return NORMAL_NODES.map(([node, share]) => {
    const place = best + width * node;
    const logWeight =
      family.logWeight(spread, place) + node ** 2 / 2 + Math.log(share * width) + logStep;
    return { prior: family.prior(spread, place), logWeight };
  });
}

const STEP = 0.05;

/** What is believed of one option's rate under one prior: P(rate ≤ x). */
export type Belief = (x: number) => number;

/**
 * The limits of a rate averaged over priors, widened where needed to hold `within`.
 * @param beliefs one for each weighed prior, with its weight.
 * @param range `upper`: a value the rate surely does not pass (1 for a proportion); `within`: the
 *   rate that is shown with the limits.
 */
export function limitsOver(
  beliefs: readonly { readonly weight: number; readonly belief: Belief }[],
  range: { readonly level: number; readonly upper: number; readonly within: number },
): Interval {
  const below = (x: number): number =>
    beliefs.reduce((sum, { weight, belief }) => sum + weight * belief(x), 0);
  const { upper, within } = range;
  const area = tailArea(range.level);
  const at = (share: number): number =>
    findRoot((x) => below(x) - share, { lower: 0, upper, tolerance: 1e-7 * upper });
  return { lower: Math.min(within, at(area)), upper: Math.max(within, at(1 - area)) };
}
