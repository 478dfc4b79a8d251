/**
 * a − b, or exactly 0 where the two agree to 12 digits, so that what is equal in exact arithmetic
 * is recognised as equal.
 */
export function differenceBeyondRounding(a: number, b: number): number {
  return Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b)) ? 0 : a - b;
}
