/**
 * Whether somebody behind the second largest contribution could work the largest out too closely:
 * what the others hold, X − x₁ − x₂, is less than p percent of x₁. A sum of nothing is not.
 * Source: Hundepool et al., Handbook on Statistical Disclosure Control, 2nd ed., p% rule.
 *
 * @param contributions one a contributor, zero or more.
 */
export function isTooClose(contributions: readonly number[], p: number): boolean {
  const [first = 0, second = 0] = [...contributions].sort((a, b) => b - a);
  const total = contributions.reduce((sum, one) => sum + one, 0);
  return total - first - second < (p / 100) * first;
}
