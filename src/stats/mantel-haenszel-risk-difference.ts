import { type Estimated, estimated, type NotEstimable, notEstimable } from '../base/estimate.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import { type Level, normalCritical } from './interval-level.ts';
import {
  type Stratum,
  type StratumCount,
  stratumCount,
  total,
  type WeighedStratum,
  weighedStrata,
} from './mantel-haenszel-strata.ts';

/** A difference over strata with both of its usual standard errors. */
export type StratifiedDifference =
  | (Estimated & StratumCount & DifferenceErrors)
  | (NotEstimable & StratumCount);

export interface DifferenceErrors {
  /** Sato's, behind the limits. */
  readonly standardError: number;
  /** Greenland and Robins', which holds for few large strata only. */
  readonly standardErrorGreenlandRobins: number;
}

/**
 * The Mantel–Haenszel difference of two proportions over independent strata, first less second, −1
 * to 1, with a normal interval on Sato's standard error; the limits may pass ±1 in small tables.
 * Not estimable without a stratum that holds both groups, or where no unit was an event, every unit
 * was, or one group had all of them: then nothing shows how much the difference varies.
 * Source: Greenland & Robins 1985, Biometrics 41:55; Sato 1989, Biometrics 45:1323.
 */
export function mantelHaenszelRiskDifference(
  strata: readonly Stratum[],
  { level }: Level,
): StratifiedDifference {
  const count = stratumCount(strata);
  const used = weighedStrata(strata);
  const n = total(used, (stratum) => stratum.n);
  const basis = { level, method: 'mantel-haenszel-risk-difference', n, exposure: null, notes: [] };
  if (used.length === 0)
    return { ...notEstimable('No stratum holds both groups.', basis), ...count };
  const weight = total(used, (stratum) => stratum.weight);
  const estimate = total(used, gain) / weight;
  const variance = satoVariance(used, estimate) / weight ** 2;
  if (!(variance > 0))
    return {
      ...notEstimable(
        'No stratum shows any variation within its groups, so nothing tells how much the difference varies.',
        basis,
      ),
      ...count,
    };
  const standardError = Math.sqrt(variance);
  const standardErrorGreenlandRobins = Math.sqrt(total(used, binomialVariance)) / weight;
  const margin = normalCritical(level) * standardError;
  const limits = { lower: estimate - margin, upper: estimate + margin };
  return {
    ...estimated({ ...basis, estimate, ...limits }),
    ...count,
    standardError,
    standardErrorGreenlandRobins,
  };
}

const gain = ({ x1, n1, x2, n2, n }: WeighedStratum): number =>
  differenceBeyondRounding(x1 * n2, x2 * n1) / n;

/** Sato's variance of the sum of the strata's gains, exactly 0 where it vanishes. */
function satoVariance(used: readonly WeighedStratum[], difference: number): number {
  const P = total(
    used,
    ({ x1, n1, x2, n2, n }) => (n1 * n1 * x2 - n2 * n2 * x1 + (n1 * n2 * (n2 - n1)) / 2) / n / n,
  );
  const Q = total(used, ({ x1, n1, x2, n2, n }) => (x1 * (n2 - x2) + x2 * (n1 - x1)) / (2 * n));
  return differenceBeyondRounding(Q, -difference * P);
}

/** Greenland and Robins' term: the binomial variance of a stratum's gain. */
const binomialVariance = ({ x1, n1, x2, n2, n }: WeighedStratum): number =>
  x1 * ((n1 - x1) / n1) * (n2 / n) ** 2 + x2 * ((n2 - x2) / n2) * (n1 / n) ** 2;
