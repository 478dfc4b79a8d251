import { normalCdf, normalQuantile } from './distributions.ts';

/** The test a plan is made for. */
export interface PlannedTest {
  /** Chance of calling a difference where there is none, e.g. 0.05. */
  readonly alpha: number;
  /** 2 unless only one direction would ever be acted on. */
  readonly sided: 1 | 2;
}

/** What a plan for two groups needs to know beside their true values. */
export interface PlannedComparison extends PlannedTest {
  /** Chance of finding the difference, e.g. 0.8. */
  readonly power: number;
  /** Size of group B for each unit of group A, in the log's own proportion; 1 = equal groups. */
  readonly allocation: number;
}

/**
 * What a comparison of two groups is up against, per unit of group A (a bite, a line-hour): the
 * difference looked for, and how much its estimate spreads (a standard deviation, to be divided by
 * √units) if there were no difference and if there is this one.
 */
export interface Contest {
  readonly difference: number;
  readonly nullSpread: number;
  readonly trueSpread: number;
}

/** Chance of finding the difference. */
export interface Power {
  /** On the side where the difference lies, 0 to 1. */
  readonly power: number;
  /** The tiny chance of calling it the wrong way round added; equal to `power` if one-sided. */
  readonly powerBothTails: number;
}

/**
 * The power of a score test with `units` in group A (above 0, need not be whole).
 * Source: Fleiss 1981, Statistical Methods for Rates and Proportions, ch. 3.
 */
export function contestPower(contest: Contest, units: number, test: PlannedTest): Power {
  const { difference, nullSpread, trueSpread } = contest;
  const reach = Math.sqrt(units) * Math.abs(difference);
  const bar = criticalValue(test) * nullSpread;
  const power = normalCdf((reach - bar) / trueSpread);
  const wrongWay = test.sided === 2 ? normalCdf(-(reach + bar) / trueSpread) : 0;
  return { power, powerBothTails: power + wrongWay };
}

/**
 * Units of group A, not rounded, that give the planned power; Infinity where nothing differs.
 * Source: Fleiss 1981, Statistical Methods for Rates and Proportions, eq. 3.14.
 */
export function contestUnits(
  { difference, nullSpread, trueSpread }: Contest,
  plan: PlannedTest & { readonly power: number },
): number {
  checkShare('A power', plan.power);
  const reach = criticalValue(plan) * nullSpread + normalQuantile(plan.power) * trueSpread;
  // A power below the false-alarm chance needs no units at all, not the square of a negative reach.
  return (Math.max(0, reach) / difference) ** 2;
}

/** The score beyond which the test calls a difference, e.g. 1.96. */
export function criticalValue({ alpha, sided }: PlannedTest): number {
  checkShare('A false-alarm chance', alpha);
  return -normalQuantile(alpha / sided);
}

/** Throws where a chance given by the caller is no chance. */
export function checkShare(what: string, value: number): void {
  if (!(value > 0 && value < 1))
    throw new RangeError(`${what} lies between 0 and 1, not at ${value}.`);
}
