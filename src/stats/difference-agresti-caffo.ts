import type { Estimate } from '../base/estimate.ts';
import { differenceEstimate, type TwoProportions } from './difference-two-proportions.ts';
import { type Level, normalCritical } from './interval-level.ts';

/**
 * The Agresti–Caffo interval for a difference of two independent proportions: the plain normal one
 * after one event and one non-event are added to each group. Its estimate is the middle of the
 * interval, nearer 0 than x₁/n₁ − x₂/n₂, and its limits may pass ±1. A group without units: not
 * estimable.
 * Source: Agresti & Caffo 2000, Am Stat 54:280.
 */
export function agrestiCaffo(counts: TwoProportions, { level }: Level): Estimate {
  const [p1, p2] = [(counts.x1 + 1) / (counts.n1 + 2), (counts.x2 + 1) / (counts.n2 + 2)];
  const error = Math.sqrt((p1 * (1 - p1)) / (counts.n1 + 2) + (p2 * (1 - p2)) / (counts.n2 + 2));
  const estimate = p1 - p2;
  const margin = normalCritical(level) * error;
  const limits = () => ({ lower: estimate - margin, upper: estimate + margin });
  const figure = differenceEstimate(counts, { level, method: 'agresti-caffo', limits });
  return figure.kind === 'estimated' ? { ...figure, estimate } : figure;
}
