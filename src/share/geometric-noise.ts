/** How much noise a count carries. */
export interface NoiseLevel {
  /** Privacy loss of everything that one trip adds to one row: smaller is safer and noisier. */
  readonly epsilon: number;
  /** The most that one trip can change the counts of its row by, all together. */
  readonly sensitivity: number;
}

/**
 * The chance that the noise is `k`: two-sided geometric, symmetric about 0.
 * Source: Ghosh, Roughgarden & Sundararajan 2009: P(k) = (1 - a)/(1 + a) a^|k|, a = exp(-ε/sensitivity).
 */
export function noiseProbability(k: number, level: NoiseLevel): number {
  const a = ratio(level);
  return ((1 - a) / (1 + a)) * a ** Math.abs(k);
}

/** Variance of the noise, 2a/(1 - a)². */
export function noiseVariance(level: NoiseLevel): number {
  const a = ratio(level);
  return (2 * a) / (1 - a) ** 2;
}

/**
 * Noise from two uniform numbers in [0, 1): the difference of two geometric counts, which is two-sided
 * geometric.
 */
export function noiseFrom(uniforms: readonly [number, number], level: NoiseLevel): number {
  const logRatio = Math.log(ratio(level));
  const [first, second] = uniforms.map((u) => Math.floor(Math.log1p(-u) / logRatio));
  return (first ?? 0) - (second ?? 0);
}

function ratio({ epsilon, sensitivity }: NoiseLevel): number {
  return Math.exp(-epsilon / sensitivity);
}
