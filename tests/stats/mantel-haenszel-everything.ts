import type { TestOutcome } from '../../src/base/test-outcome.ts';
import { conditionalOddsRatio } from '../../src/stats/conditional-odds-ratio.ts';
import { breslowDay } from '../../src/stats/homogeneity-breslow-day.ts';
import { mantelHaenszelOddsRatio } from '../../src/stats/mantel-haenszel-odds-ratio.ts';
import { mantelHaenszelRiskDifference } from '../../src/stats/mantel-haenszel-risk-difference.ts';
import { mantelHaenszelRiskRatio } from '../../src/stats/mantel-haenszel-risk-ratio.ts';
import type { StratifiedRatio, Stratum } from '../../src/stats/mantel-haenszel-strata.ts';
import { mantelHaenszelTest } from '../../src/stats/mantel-haenszel-test.ts';

/** Events and non-events of the first group, then of the second. */
export type Four = [number, number, number, number];
export const stratum = ([a, b, c, d]: Four): Stratum => ({ x1: a, n1: a + b, x2: c, n2: c + d });
/** Statistic and p, or null for both, as the reference files write it. */
export const tested = (outcome: TestOutcome) =>
  outcome.kind === 'tested' ? outcome : { statistic: null, p: null };
const withLogSe = (ratio: StratifiedRatio) =>
  ratio.kind === 'estimated' ? { ...ratio, logSe: ratio.logStandardError } : ratio;

/** Every stratified method on the same tables, under the names of the reference cases. */
export function everything(strata: readonly Stratum[], level: number) {
  const oddsRatio = mantelHaenszelOddsRatio(strata, { level });
  const difference = mantelHaenszelRiskDifference(strata, { level });
  const homogeneity = breslowDay(strata);
  const exact = conditionalOddsRatio(strata, { level });
  return {
    strata: oddsRatio.strata,
    informativeStrata: oddsRatio.informativeStrata,
    oddsRatioMH: withLogSe(oddsRatio),
    riskRatioMH: withLogSe(mantelHaenszelRiskRatio(strata, { level })),
    riskDifferenceMH:
      difference.kind === 'estimated'
        ? {
            estimate: difference.estimate,
            seSato: difference.standardError,
            lowerSato: difference.lower,
            upperSato: difference.upper,
            seGreenlandRobins: difference.standardErrorGreenlandRobins,
          }
        : difference,
    cmh: tested(mantelHaenszelTest(strata, { continuity: false })),
    cmhContinuity: tested(mantelHaenszelTest(strata, { continuity: true })),
    breslowDay: {
      ...tested(homogeneity.breslowDay),
      df: homogeneity.df,
      taroneStatistic: tested(homogeneity.tarone).statistic,
      taroneP: tested(homogeneity.tarone).p,
    },
    conditionalOddsRatio: { ...exact, ...exact.limits, pTwoSidedExact: exact.pTwoSided },
  };
}
