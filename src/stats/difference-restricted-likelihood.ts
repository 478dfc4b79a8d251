import type { TwoProportions } from './difference-two-proportions.ts';
import { findRoot } from './root.ts';

/**
 * The two proportions that make the counts most likely among all pairs with p₁ − p₂ = `difference`
 * (−1 to 1). Both lie in 0 to 1.
 * Source: Miettinen & Nurminen 1985, Stat Med 4:213. The likelihood equation is solved by bracketing
 * and not by its closed cubic, whose digits fail near 0 and 1.
 */
export function restrictedProportions(
  counts: TwoProportions,
  difference: number,
): { readonly p1: number; readonly p2: number } {
  // Here the two shares are one number, and the slope below would vanish at both ends of its range.
  if (Math.abs(difference) < Number.EPSILON) return pooled(counts);
  const lower = Math.max(0, -difference);
  const upper = Math.min(1, 1 - difference);
  const slope = (p2: number) => likelihoodSlope(counts, p2, difference);
  if (lower >= upper || slope(lower) <= 0) return { p1: lower + difference, p2: lower };
  if (slope(upper) >= 0) return { p1: upper + difference, p2: upper };
  const p2 = findRoot(slope, { lower, upper });
  return { p1: p2 + difference, p2 };
}

function pooled({ x1, n1, x2, n2 }: TwoProportions) {
  const share = (x1 + x2) / (n1 + n2);
  return { p1: share, p2: share };
}

/**
 * A number with the sign of the log-likelihood's slope in p₂: the slope is a sum of ± count/share,
 * and here it is multiplied by those shares that have a count, so that it is finite at the ends
 * and no factor without a count adds a root there.
 */
function likelihoodSlope({ x1, n1, x2, n2 }: TwoProportions, p2: number, d: number): number {
  const p1 = Math.min(1, Math.max(0, p2 + d));
  const terms = [
    { count: x1, share: p1, sign: 1 },
    { count: n1 - x1, share: 1 - p1, sign: -1 },
    { count: x2, share: p2, sign: 1 },
    { count: n2 - x2, share: 1 - p2, sign: -1 },
  ].filter(({ count }) => count > 0);
  return terms.reduce((sum, { count, sign }, i) => {
    const others = terms.reduce(
      (product, { share }, j) => (i === j ? product : product * share),
      1,
    );
    return sum + sign * count * others;
  }, 0);
}
