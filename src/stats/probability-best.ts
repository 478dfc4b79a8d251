import { integrate } from './probability-best-integral.ts';
import { betaLaw, gammaLaw, type RateLaw } from './probability-best-law.ts';

/** How one option stands among all, given what is believed of each. */
export interface Standing {
  /** Probability that its rate is the highest, 0 to 1; all add up to 1. */
  readonly best: number;
  /** Probability that its rate is within the margin of the highest; at least `best`. */
  readonly nearBest: number;
  /** 1 = surely the highest, number of options = surely the lowest. */
  readonly expectedRank: number;
}

/**
 * How proportions rank, given a beta distribution for each (independent of the others), e.g. those
 * of `betaBinomialFit`; a flat prior in their place lets an option with two trials look best.
 * @param options a, b above 0, in any order; one option alone is best with probability 1.
 * @param margin `difference`: how far below the best still counts as near it, e.g. 0.05 for five
 *   percentage points; 0 or more.
 * @returns one standing for each option, in their order, good to 1e-8.
 * Source: integral of each density times the others' distribution functions (Gelman et al. 2013,
 * Bayesian Data Analysis, ch. 5, on ranking).
 */
export function probabilityBestProportion(
  options: readonly { readonly a: number; readonly b: number }[],
  { difference }: { readonly difference: number },
): Standing[] {
  checkMargin(difference);
  return standings(options.map((option) => betaLaw(option, difference)));
}

/**
 * How rates rank, given a gamma distribution for each, e.g. those of `gammaPoissonFit`.
 * @param options shape, rate above 0.
 * @param margin `share`: how far below the best still counts as near it, e.g. 0.1 where the best is
 *   at most 1.1 times as high; 0 or more.
 * @returns as `probabilityBestProportion`.
 */
export function probabilityBestRate(
  options: readonly { readonly shape: number; readonly rate: number }[],
  { share }: { readonly share: number },
): Standing[] {
  checkMargin(share);
  return standings(options.map((option) => gammaLaw(option, share)));
}

function standings(laws: readonly RateLaw[]): Standing[] {
  if (laws.length === 0) return [];
  const integrals = integrate((s) => integrands(laws, s), landmarks(laws));
  return laws.map((_, i) => {
    const [best = 0, nearBest = 0, above = 0] = integrals.slice(3 * i, 3 * i + 3);
    return { best, nearBest, expectedRank: 1 + above };
  });
}

/** For each option: density × others below, × others below the margin, × how many are above. */
function integrands(laws: readonly RateLaw[], s: number): number[] {
  const tails = laws.map((law) => law.tails(s));
  const raised = laws.map((law) => law.lowerRaised(s));
  const below = productsWithoutEach(tails.map(({ lower }) => lower));
  const near = productsWithoutEach(raised);
  const above = tails.reduce((sum, { upper }) => sum + upper, 0);
  return laws.flatMap((law, i) => {
    const density = law.density(s);
    const others = above - (tails[i]?.upper as number);
    return [density * (below[i] as number), density * (near[i] as number), density * others];
  });
}

/** Products of all values but one, without dividing by a value that may be 0. */
function productsWithoutEach(values: readonly number[]): number[] {
  const products = values.map(() => 1);
  let before = 1;
  let after = 1;
  values.forEach((value, i) => {
    (products[i] as number) *= before;
    before *= value;
    const j = values.length - 1 - i;
    (products[j] as number) *= after;
    after *= values[j] as number;
  });
  return products;
}

/**
 * Places between which every density is gentle: the ends, the middles and some way around them.
 * Places closer together than the sharpest density needs are thinned out.
 */
function landmarks(laws: readonly RateLaw[]): number[] {
  const places = laws.flatMap(({ from, centre, spread, to }) => {
    const around = [-5, -2, 0, 2, 5].map((steps) => centre + steps * spread);
    return [from, to, ...around.filter((place) => place > from && place < to)];
  });
  places.sort((a, b) => a - b);
  const sharpest = Math.min(...laws.map(({ spread }) => spread));
  const [first, last] = [places[0] as number, places.at(-1) as number];
  const kept: number[] = [];
  for (const place of places)
    if (place - (kept.at(-1) ?? Number.NEGATIVE_INFINITY) > 2 * sharpest) kept.push(place);
  const bend = laws[0]?.bend ?? null;
  const bends = bend !== null && bend > first && bend < last ? [bend] : [];
  const all = new Set([...kept, ...bends, last]);
  return [...all].sort((a, b) => a - b);
}

function checkMargin(margin: number): void {
  if (!(margin >= 0)) throw new RangeError(`A margin is 0 or more, not ${margin}.`);
}
