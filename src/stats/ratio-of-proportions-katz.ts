import { notEstimable } from '../base/estimate.ts';
import { basisOfTwo, type TwoProportions, whyNoComparison } from './difference-two-proportions.ts';
import type { Level } from './interval-level.ts';
import { type LogNormalRatio, logNormalRatio } from './ratio-of-log-normal.ts';

/**
 * The ratio of two independent proportions, first over second (above 0), with Katz' interval on the
 * log scale; without width where every unit of both groups was an event. No events in a group, or
 * no units: not estimable.
 * Source: Katz, Baptista, Azen & Pike 1978, Biometrics 34:469.
 */
export function katzRatio(counts: TwoProportions, { level }: Level): LogNormalRatio {
  const basis = basisOfTwo(counts, { level, method: 'katz' });
  const reason = whyNoComparison(counts);
  if (reason !== null) return notEstimable(reason, basis);
  const { x1, n1, x2, n2 } = counts;
  if (x1 === 0 || x2 === 0)
    return notEstimable(
      `The ${x1 === 0 ? 'first' : 'second'} group has no events (0 of ${x1 === 0 ? n1 : n2}), so this method can form no ratio.`,
      basis,
    );
  const logVariance = (n1 - x1) / n1 / x1 + (n2 - x2) / n2 / x2;
  return logNormalRatio({ estimate: x1 / n1 / (x2 / n2), logVariance }, basis);
}
