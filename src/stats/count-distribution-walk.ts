import type { NegativeBinomial } from './count-distribution-negative-binomial.ts';

/** A walk takes no more steps than this: for a quantile, and where many are walked for one fit. */
const MOST_STEPS = 20_000;
const MOST_STEPS_AGAIN = 1000;
/** Below this P(count = 0) carries too few digits to start from. */
const LEAST_START = 1e-280;

/**
 * All probabilities of a negative binomial (or Poisson) law from 0 upwards, each from the one before
 * it, which costs one multiplication where a distribution function costs hundreds.
 * Source: P(k + 1) / P(k) = mean (k + size) / ((mean + size) (k + 1)), from the definition.
 */
interface Walk {
  /** P(count = 0). */
  readonly start: number;
  /** P(k + 1) / P(k) = (a + b k) / (k + 1). */
  readonly a: number;
  readonly b: number;
}

function walkOf({ mean, size }: NegativeBinomial): Walk {
  if (size === Number.POSITIVE_INFINITY) return { start: Math.exp(-mean), a: mean, b: 0 };
  return {
    start: Math.exp(-size * Math.log1p(mean / size)),
    a: mean / (1 + mean / size),
    b: mean / (mean + size),
  };
}

/**
 * The smallest k with P(count ≤ k) ≥ `probability` for a mixture of laws, each with its share of the
 * whole. null: too far to walk, or 0 is too unlikely to start at.
 */
export function quantileByWalk(
  laws: readonly (NegativeBinomial & { readonly share: number })[],
  probability: number,
): number | null {
  const walks = laws.map(walkOf);
  if (walks.some(({ start }) => start < LEAST_START)) return null;
  const chances = Float64Array.from(walks, ({ start }, i) => start * (laws[i]?.share ?? 0));
  const a = Float64Array.from(walks, (walk) => walk.a);
  const b = Float64Array.from(walks, (walk) => walk.b);
  let below = 0;
  for (let k = 0; k < MOST_STEPS; k += 1) {
    for (let i = 0; i < chances.length; i += 1) {
      const chance = chances[i] as number;
      below += chance;
      chances[i] = (chance * ((a[i] as number) + (b[i] as number) * k)) / (k + 1);
    }
    if (below >= probability) return k;
  }
  return null;
}

/**
 * P(count < each of `counts`), whole numbers from 0 in rising order. null as for `quantileByWalk`.
 */
export function chancesBelow(law: NegativeBinomial, counts: readonly number[]): number[] | null {
  const { start, a, b } = walkOf(law);
  if (start < LEAST_START || (counts.at(-1) ?? 0) > MOST_STEPS_AGAIN) return null;
  let [chance, below, k] = [start, 0, 0];
  return counts.map((count) => {
    for (; k < count; k += 1) {
      below += chance;
      chance = (chance * (a + b * k)) / (k + 1);
    }
    return below;
  });
}
