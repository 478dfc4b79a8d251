/** Successes out of trials of one option, successes ≤ trials; effective counts are fractions. */
export interface Trials {
  readonly successes: number;
  readonly trials: number;
}

/**
 * Tarone's test of more spread between options than the binomial law gives: standard normal if
 * there is none, above 0 if they differ more, below 0 if less.
 * null: no option has more than one trial, or all trials went the same way.
 * Source: Tarone 1979, Biometrika 66:585.
 */
export function taroneZ(options: readonly Trials[]): number | null {
  const total = (of: (option: Trials) => number): number =>
    options.reduce((sum, option) => sum + of(option), 0);
  const N = total((option) => option.trials);
  const p = total((option) => option.successes) / N;
  const pairs = total(({ trials }) => trials * (trials - 1));
  if (!(p > 0 && p < 1 && pairs > 0)) return null;
  const spread = total(({ successes, trials }) => (successes - trials * p) ** 2) / (p * (1 - p));
  return (spread - N) / Math.sqrt(2 * pairs);
}
