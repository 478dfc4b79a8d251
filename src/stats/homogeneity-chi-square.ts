import type { Tested } from '../base/test-outcome.ts';
import { chiSquareTails } from './distributions.ts';

/** A test whose statistic is chi-square on `df` degrees of freedom; p is the tail above it. */
export function chiSquareTested(test: {
  readonly method: string;
  readonly statistic: number;
  readonly df: number;
}): Tested {
  return { kind: 'tested', ...test, p: chiSquareTails(test.statistic, test.df).upper };
}
