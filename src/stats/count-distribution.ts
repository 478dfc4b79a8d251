import {
  type NegativeBinomial,
  negativeBinomialLogPmf,
  negativeBinomialTails,
} from './count-distribution-negative-binomial.ts';
import { quantileByWalk } from './count-distribution-walk.ts';
import { normalQuantile } from './distributions.ts';

/**
 * A law of counts 0, 1, 2, …, such as the baits used on a trip. `mean` 0 or more; `size` above 0
 * (variance = mean + mean²/size). `empirical` gives each listed count the same chance; `mixture`
 * is drawn from one of its parts, with weights that need not add up to 1.
 */
export type CountDistribution =
  | { readonly family: 'poisson'; readonly mean: number }
  | { readonly family: 'negative-binomial'; readonly mean: number; readonly size: number }
  | { readonly family: 'empirical'; readonly counts: readonly number[] }
  | { readonly family: 'mixture'; readonly parts: readonly MixturePart[] };

export interface MixturePart {
  readonly weight: number;
  readonly of: CountDistribution;
}

/** A probability this near to the one asked for is that one: sums of probabilities carry rounding. */
const SAME_PROBABILITY = 2e-14;

/** P(count = k), for a whole number k, 0 or more. */
export function countPmf(law: CountDistribution, k: number): number {
  if (law.family === 'mixture') return mixed(law.parts, (part) => countPmf(part, k));
  if (law.family === 'empirical') return share(law.counts, (count) => count === k);
  return Math.exp(negativeBinomialLogPmf(k, parametric(law)));
}

/** P(count ≤ k), for a whole number k, 0 or more. */
export function countCdf(law: CountDistribution, k: number): number {
  if (law.family === 'mixture') return mixed(law.parts, (part) => countCdf(part, k));
  if (law.family === 'empirical') return share(law.counts, (count) => count <= k);
  return negativeBinomialTails(k, parametric(law)).lower;
}

/** P(count > k), for a whole number k, 0 or more; keeps its digits far out. */
export function countTail(law: CountDistribution, k: number): number {
  if (law.family === 'mixture') return mixed(law.parts, (part) => countTail(part, k));
  if (law.family === 'empirical') return share(law.counts, (count) => count > k);
  return negativeBinomialTails(k, parametric(law)).upper;
}

/** The mean count. */
export function countMean(law: CountDistribution): number {
  if (law.family === 'mixture') return mixed(law.parts, countMean);
  if (law.family === 'empirical') return average(law.counts, (count) => count);
  return law.mean;
}

/** The variance of the count. */
export function countVariance(law: CountDistribution): number {
  const mean = countMean(law);
  if (law.family === 'mixture')
    return mixed(law.parts, (part) => countVariance(part) + (countMean(part) - mean) ** 2);
  if (law.family === 'empirical') return average(law.counts, (count) => (count - mean) ** 2);
  return mean + mean ** 2 / parametric(law).size;
}

/**
 * E max(count − stock, 0): how many are missing on average from a stock (a whole number, 0 or more).
 * Source: closed form by the recursion of the probabilities; Hadley & Whitin 1963, Analysis of
 * Inventory Systems, app. 3 (Poisson), the negative binomial likewise.
 */
export function expectedExcess(law: CountDistribution, stock: number): number {
  if (law.family === 'mixture') return mixed(law.parts, (part) => expectedExcess(part, stock));
  if (law.family === 'empirical') return average(law.counts, (count) => Math.max(0, count - stock));
  if (stock === 0) return law.mean;
  const { mean, size } = parametric(law);
  const beyond = (mean - stock) * countTail(law, stock);
  return Math.max(0, beyond + mean * countPmf(law, stock) * (1 + stock / size));
}

/**
 * The smallest k with P(count ≤ k) ≥ `probability` (0 to 1). 0 at probability 0; Infinity at 1 for
 * a law without an end.
 */
export function countQuantile(law: CountDistribution, probability: number): number {
  if (!(probability >= 0 && probability <= 1))
    throw new RangeError(`A probability lies between 0 and 1, not at ${probability}.`);
  const wanted = probability - SAME_PROBABILITY;
  const walked = law.family === 'mixture' && probability < 1 ? walk(law.parts, wanted) : null;
  if (walked !== null) return walked;
  const enough = (k: number): boolean => countCdf(law, k) >= wanted;
  if (enough(0)) return 0;
  if (probability === 1 && law.family !== 'empirical') return Number.POSITIVE_INFINITY;
  const [mean, sd] = [countMean(law), Math.sqrt(countVariance(law))];
  const guess = Math.floor(mean + sd * Math.max(-8, Math.min(8, normalQuantile(probability))) - sd);
  let below = guess > 0 && !enough(guess) ? guess : 0;
  let above = Math.max(below + 1, Math.ceil(guess + 2 * sd));
  while (!enough(above)) [below, above] = [above, above + 2 * (above - below)];
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2);
    if (enough(middle)) above = middle;
    else below = middle;
  }
  return above;
}

/** The quantile of a mixture of laws that have a mean; null for others, or too far to walk. */
function walk(parts: readonly MixturePart[], probability: number): number | null {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  const laws = parts.flatMap(({ weight, of }) =>
    'mean' in of ? [{ ...parametric(of), share: weight / total }] : [],
  );
  return laws.length === parts.length ? quantileByWalk(laws, probability) : null;
}

function parametric(law: Extract<CountDistribution, { readonly mean: number }>): NegativeBinomial {
  const size = law.family === 'poisson' ? Number.POSITIVE_INFINITY : law.size;
  if (!(law.mean >= 0 && Number.isFinite(law.mean)))
    throw new RangeError(`A mean count is 0 or more, not ${law.mean}.`);
  if (!(size > 0)) throw new RangeError(`A negative binomial size is above 0, not ${size}.`);
  return { mean: law.mean, size };
}

function mixed(parts: readonly MixturePart[], of: (law: CountDistribution) => number): number {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  return parts.reduce((sum, part) => sum + (part.weight / total) * of(part.of), 0);
}

const average = (counts: readonly number[], of: (count: number) => number): number =>
  counts.reduce((sum, count) => sum + of(count), 0) / counts.length;

const share = (counts: readonly number[], holds: (count: number) => boolean): number =>
  average(counts, (count) => (holds(count) ? 1 : 0));
