import type { Tested } from '../base/test-outcome.ts';
import { chiSquareCdf, logGamma, normalCdf } from './distributions.ts';

/** A test whose statistic is chi-square on `df` degrees of freedom (a whole number, 1 or more). */
export function chiSquareTested(test: {
  readonly method: string;
  readonly statistic: number;
  readonly df: number;
}): Tested {
  return { kind: 'tested', ...test, p: chiSquareUpperTail(test.statistic, test.df) };
}

/**
 * The chance that a chi-square on `df` degrees of freedom (whole, 1 or more) exceeds x, with its
 * leading digits also where it is tiny; below about 10⁻³⁰⁸ it is 0. Beyond its mean the tail is the
 * sum of terms (x/2)^(k/2) e^(−x/2) / Γ(k/2 + 1) for k = df − 2, df − 4, …, and at odd df twice the
 * normal tail of √x, all above 0.
 * Source: Abramowitz & Stegun 26.4.4 and 26.4.5.
 */
export function chiSquareUpperTail(x: number, df: number): number {
  if (x <= df) return 1 - chiSquareCdf(x, df);
  let term = Math.exp((df / 2 - 1) * Math.log(x / 2) - x / 2 - logGamma(df / 2));
  let tail = df % 2 === 1 ? 2 * normalCdf(-Math.sqrt(x)) : 0;
  for (let k = df - 2; k >= 0; k -= 2) {
    tail += term;
    term *= k / x;
  }
  return tail;
}
