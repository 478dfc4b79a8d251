import type { TestOutcome } from '../base/test-outcome.ts';
import { kaplanMeier, type SurvivalCurve } from '../stats/kaplan-meier.ts';
import type { Life } from '../stats/kaplan-meier-lives.ts';
import { logRank } from '../stats/log-rank.ts';
import type { AgeUnit, SpoolLife } from './wear-spools.ts';

/** How many spools of one line type were still unbroken at each age. */
export interface FirstBreakCurve {
  readonly lineType: string;
  readonly unit: AgeUnit;
  readonly curve: SurvivalCurve;
}

/** First breaks of all line types in one unit of age, and whether they differ. */
export interface FirstBreaks {
  readonly unit: AgeUnit;
  readonly curves: readonly FirstBreakCurve[];
  /** Log-rank over the line types. */
  readonly difference: TestOutcome;
}

/**
 * The share of spools without a break at each age, by line type (Kaplan–Meier, log-log limits), and
 * the log-rank test between them. Spools that were not seen from new, or whose age is not known in
 * this unit, are left out; one without a break counts as unbroken up to its last age.
 * Source: Kaplan & Meier 1958; Mantel 1966.
 */
export function firstBreaks(
  byLineType: ReadonlyMap<string, readonly SpoolLife[]>,
  unit: AgeUnit,
  level: number,
): FirstBreaks {
  const groups = [...byLineType].map(([lineType, lives]) => ({
    lineType,
    lives: lives.flatMap((life) => lifeIn(life, unit)),
  }));
  const test = logRank(groups.map(({ lives }) => lives));
  return {
    unit,
    curves: groups.map(({ lineType, lives }) => ({
      lineType,
      unit,
      curve: kaplanMeier(lives, { level }),
    })),
    difference:
      test.kind === 'tested'
        ? { kind: 'tested', method: 'log-rank', statistic: test.chiSquare, df: test.df, p: test.p }
        : { ...test, method: 'log-rank' },
  };
}

function lifeIn({ isWhole, firstBreak, age }: SpoolLife, unit: AgeUnit): Life[] {
  const time = (firstBreak ?? age)[unit];
  return isWhole && time !== null ? [{ time, event: firstBreak !== null }] : [];
}
