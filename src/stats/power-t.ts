import {
  gammaQuantile,
  gammaUpperQuantile,
  logGamma,
  normalCdf,
  tQuantile,
} from './distributions.ts';
import { checkShare, type PlannedTest, type Power } from './power-plan.ts';

/** A difference to be found by a t test, and how well the test will know it. */
export interface TContest {
  /** True difference, in any unit and with its sign. */
  readonly difference: number;
  /** Standard deviation of its estimate, above 0, in the same unit. */
  readonly standardError: number;
  /** Degrees of freedom of the estimated standard error, 1 or more, need not be whole. */
  readonly df: number;
}

/**
 * The power of a t test whose standard error has to be estimated from few clusters: the chance that
 * a noncentral t passes the critical value of t. As df grows it becomes the power of the z test.
 * Source: Johnson, Kotz & Balakrishnan 1995, Continuous Univariate Distributions 2, ch. 31 (the
 * noncentral t as a normal over an independent chi).
 */
export function tTestPower(contest: TContest, test: PlannedTest): Power {
  const { difference, standardError, df } = contest;
  checkShare('A false-alarm chance', test.alpha);
  if (!(standardError > 0 && df >= 1))
    throw new RangeError(`No t test has a standard error of ${standardError} on ${df} df.`);
  const bar = -tQuantile(test.alpha / test.sided, df);
  const reach = Math.abs(difference) / standardError;
  const power = overChi(df, (spread) => normalCdf(reach - bar * spread));
  const wrongWay = test.sided === 1 ? 0 : overChi(df, (spread) => normalCdf(-reach - bar * spread));
  return { power, powerBothTails: power + wrongWay };
}

/** Beyond these chances an estimated standard error adds nothing that could be read off. */
const FAR = 1e-10;
const STEPS = 256;

/**
 * Mean of a function over the ratio of an estimated standard error to the true one, √(χ²/df), by
 * Simpson's rule in the root of the ratio, which is smooth at 0 even on one degree of freedom.
 */
function overChi(df: number, f: (spread: number) => number): number {
  const half = df / 2;
  const from = df < 3 ? 0 : (gammaQuantile(FAR, half) / half) ** 0.25;
  const to = (gammaUpperQuantile(FAR, half) / half) ** 0.25;
  const step = (to - from) / STEPS;
  const logScale = 2 * Math.LN2 + half * Math.log(half) - logGamma(half);
  let sum = 0;
  for (let i = 0; i <= STEPS; i++) {
    const root = from + i * step;
    if (root === 0) continue;
    const spread = root * root;
    const density = Math.exp(logScale + (2 * df - 1) * Math.log(root) - half * spread * spread);
    const weight = i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * density * f(spread);
  }
  return (sum * step) / 3;
}
