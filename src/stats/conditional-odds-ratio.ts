import {
  type Basis,
  type Estimate,
  estimated,
  type Interval,
  notEstimable,
} from '../base/estimate.ts';
import {
  type ConditionalDistribution,
  conditionalDistribution,
  standingAt,
} from './conditional-distribution.ts';
import { conditionalSupport } from './conditional-weights.ts';
import { type Level, tailArea } from './interval-level.ts';
import {
  type Stratum,
  type StratumCount,
  stratumCount,
  total,
  weighedStrata,
} from './mantel-haenszel-strata.ts';
import { findRootOutward } from './root.ts';

/** An exact common odds ratio with the exact test that goes with it. */
export type ConditionalOddsRatio = Estimate & StratumCount & ExactTest;

export interface ExactTest {
  /** Exact limits; 0 to ∞ where the margins leave no choice; null where they were not worked out. */
  readonly limits: Interval | null;
  /** Chance, at no difference, of a total no likelier than the one seen; null: not worked out. */
  readonly pTwoSided: number | null;
  /** Chance, at no difference, of as few events in the first group; null: not worked out. */
  readonly pLess: number | null;
  /** Chance, at no difference, of as many events in the first group; null: not worked out. */
  readonly pGreater: number | null;
}

/**
 * The common odds ratio of one or more 2×2 tables, first group over second, by maximum likelihood
 * given all margins, with exact limits and the exact test of 1. Where the first group has as few
 * (as many) events as the margins allow, the estimate is 0 (∞) with the other limit finite. A p of 0
 * means below 10⁻³⁰⁰. Not estimable where the margins allow one table only, for counts that are not
 * whole, and for strata so large that the work would take minutes.
 * Source: Fisher 1935; Gart 1970, Biometrika 57:471. Two-sided p: sum over totals not likelier than
 * the one seen, those within a factor of 1 + 10⁻⁷ counted as equally likely.
 */
export function conditionalOddsRatio(
  strata: readonly Stratum[],
  { level }: Level,
): ConditionalOddsRatio {
  const used = weighedStrata(strata);
  const n = total(used, (stratum) => stratum.n);
  const basis: Basis = { level, method: 'conditional-exact', n, exposure: null, notes: [] };
  const refuse = (reason: string, test: ExactTest) => ({
    ...notEstimable(reason, basis),
    ...stratumCount(strata),
    ...test,
  });
  if (!used.every(({ x1, n1, x2, n2 }) => [x1, n1, x2, n2].every(Number.isInteger)))
    return refuse('Exact methods need whole counts.', NOT_WORKED_OUT);
  const supports = used.map(conditionalSupport);
  const [least, most] = [total(supports, (s) => s.least), total(supports, (s) => s.most)];
  if (least === most)
    return refuse('The totals allow one outcome only, so nothing can be compared.', NO_CHOICE);
  const observed = total(used, ({ x1 }) => x1);
  const central = conditionalDistribution(used, { oddsRatio: 1, floor: 1e-300 });
  const near = conditionalDistribution(used, { oddsRatio: roughOddsRatio(used), floor: 1e-40 });
  if (central === null || near === null)
    return refuse(
      'The counts are too large for exact sums; the other methods serve.',
      NOT_WORKED_OUT,
    );
  const { estimate, ...limits } = exactLimits(near, { level, observed, least, most });
  const test = { limits, ...tailsAtOne(central, observed) };
  return { ...estimated({ ...basis, estimate, ...limits }), ...stratumCount(strata), ...test };
}

const NOT_WORKED_OUT: ExactTest = { limits: null, pTwoSided: null, pLess: null, pGreater: null };
const NO_CHOICE: ExactTest = {
  limits: { lower: 0, upper: Number.POSITIVE_INFINITY },
  pTwoSided: 1,
  pLess: 1,
  pGreater: 1,
};

/**
 * A finite odds ratio not far from the estimate: Mantel–Haenszel with half a unit on both sides.
 * Weights are formed there, so that the ones that matter for the limits are the large ones.
 */
function roughOddsRatio(used: readonly Stratum[]): number {
  const forFirst = total(used, ({ x1, n1, x2, n2 }) => x1 * ((n2 - x2) / (n1 + n2)));
  const forSecond = total(used, ({ x1, n1, x2, n2 }) => x2 * ((n1 - x1) / (n1 + n2)));
  return (forFirst + 0.5) / (forSecond + 0.5);
}

/** The total seen in the first group, and what the margins allow it to be. */
interface Observed extends Level {
  readonly observed: number;
  readonly least: number;
  readonly most: number;
}

/** The log odds ratios at which the mean, or one tail, meets its mark; each grows or falls steadily. */
function exactLimits(
  distribution: ConditionalDistribution,
  { level, observed, least, most }: Observed,
): Interval & { readonly estimate: number } {
  const tail = tailArea(level);
  const at = (logOddsRatio: number) => standingAt(distribution, observed, logOddsRatio);
  const start = distribution.logOddsRatio;
  const { standardDeviation } = at(start);
  const firstStep = standardDeviation > 0 ? 0.5 / standardDeviation : 1;
  const solve = (f: (logOddsRatio: number) => number) =>
    Math.exp(findRootOutward(f, start, firstStep));
  const [none, all] = [observed === least, observed === most];
  return {
    estimate: none
      ? 0
      : all
        ? Number.POSITIVE_INFINITY
        : solve((theta) => at(theta).mean - observed),
    lower: none ? 0 : solve((theta) => at(theta).atLeast - tail),
    upper: all ? Number.POSITIVE_INFINITY : solve((theta) => tail - at(theta).atMost),
  };
}

/**
 * Sums over the distribution at an odds ratio of 1. A total beyond the weights kept is less likely
 * than 10⁻³⁰⁰ of the likeliest, and its tail counts as 0.
 */
function tailsAtOne({ first, weights }: ConditionalDistribution, observed: number) {
  let [all, less, greater, unlikely] = [0, 0, 0, 0];
  const seen = weights[observed - first] ?? 0;
  for (const [i, weight] of weights.entries()) {
    all += weight;
    if (first + i <= observed) less += weight;
    if (first + i >= observed) greater += weight;
    if (weight <= seen * (1 + 1e-7)) unlikely += weight;
  }
  return {
    pTwoSided: Math.min(1, unlikely / all),
    pLess: Math.min(1, less / all),
    pGreater: Math.min(1, greater / all),
  };
}
