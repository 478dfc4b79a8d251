import type { Estimate } from '../base/estimate.ts';
import { differenceEstimate, type TwoProportions } from './difference-two-proportions.ts';
import { type Level, normalCritical } from './interval-level.ts';

/**
 * The plain normal interval for a difference of two independent proportions. Kept for textbook
 * tables: it is too narrow in small groups, may pass ±1, and has no width at all where each group
 * is all or none, which a note then says. A group without units: not estimable.
 * Source: textbook form, after Wald.
 */
export function waldDifference(counts: TwoProportions, { level }: Level): Estimate {
  const figure = differenceEstimate(counts, {
    level,
    method: 'wald-difference',
    limits: ({ x1, n1, x2, n2 }, difference) => {
      const margin = normalCritical(level) * Math.sqrt(errorOf(x1, n1) + errorOf(x2, n2));
      return { lower: difference - margin, upper: difference + margin };
    },
  });
  if (figure.kind === 'not-estimable' || figure.lower < figure.upper) return figure;
  return { ...figure, notes: [NO_WIDTH] };
}

const NO_WIDTH = 'Each group is all or none, where this method gives an interval without width.';

const errorOf = (x: number, n: number): number => ((x / n) * ((n - x) / n)) / n;
