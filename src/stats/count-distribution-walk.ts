import type { NegativeBinomial } from './count-distribution-negative-binomial.ts';

/** A walk takes no more steps than this. */
const MOST_STEPS = 20_000;
/** Below this P(count = 0) carries too few digits to start from. */
const LEAST_START = 1e-280;

/**
 * The smallest k with P(count ≤ k) ≥ `probability` for a mixture of negative binomial (or Poisson)
 * laws, each with its share of the whole: all probabilities from 0 upwards, each from the one before
 * it, which costs one multiplication where a distribution function costs hundreds.
 * null: too far to walk, or 0 is too unlikely to start at.
 * Source: P(k + 1) / P(k) = mean (k + size) / ((mean + size) (k + 1)), from the definition.
 */
export function quantileByWalk(
  laws: readonly (NegativeBinomial & { readonly share: number })[],
  probability: number,
): number | null {
  const chances = Float64Array.from(laws, ({ mean, size }) =>
    size === Number.POSITIVE_INFINITY ? Math.exp(-mean) : Math.exp(-size * Math.log1p(mean / size)),
  );
  if (chances.some((chance) => chance < LEAST_START)) return null;
  // P(k + 1) / P(k) = (a + b k) / (k + 1)
  const a = Float64Array.from(laws, ({ mean, size }) =>
    size === Number.POSITIVE_INFINITY ? mean : mean / (1 + mean / size),
  );
  const b = Float64Array.from(laws, ({ mean, size }) => mean / (mean + size));
  laws.forEach(({ share }, i) => {
    (chances[i] as number) *= share;
  });
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
