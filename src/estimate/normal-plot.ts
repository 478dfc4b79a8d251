import { normalQuantile } from '../stats/distributions.ts';

/** One quantile of the residuals beside the same quantile of the standard normal law. */
export interface QuantilePair {
  readonly expected: number;
  readonly found: number;
}

const MOST_POINTS = 99;

/**
 * Quantiles of residuals against those of a standard normal law, from low to high: on the diagonal
 * where the model holds. At most 99 pairs, at even steps of probability; none without residuals.
 * Source: Wilk & Gnanadesikan 1968, Biometrika 55:1 (from memory).
 */
export function normalPlot(residuals: readonly number[]): QuantilePair[] {
  const sorted = [...residuals].sort((a, b) => a - b);
  const points = Math.min(MOST_POINTS, sorted.length);
  return Array.from({ length: points }, (_, point) => {
    const p = (point + 0.5) / points;
    return { expected: normalQuantile(p), found: sorted[Math.floor(p * sorted.length)] ?? 0 };
  });
}
