import { groupBy } from '../../base/group-by.ts';
import type { GroupRate } from '../../estimate/group-rate.ts';
import type { FactorName } from '../../tally/factors.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import type { Measure } from '../../tally/measures.ts';
import { isThin } from './enough.ts';
import { levelName } from './level-words.ts';
import type { ReportContext } from './report-context.ts';

/** One level (or combination of levels) with its figures for several measures. */
export interface LevelRates {
  readonly by: Readonly<Partial<Record<FactorName, string>>>;
  /** `mono`, or `sardine, long` for two factors. */
  readonly name: string;
  /** Whether any of its factors is not recorded. */
  readonly isMissing: boolean;
  /** The figure of the measure that the level is judged by. */
  readonly main: GroupRate;
  readonly rates: readonly GroupRate[];
}

/** Figures by level, in the factors' own order; what is not recorded comes last. */
export function levelRates(
  context: ReportContext,
  factors: readonly FactorName[],
  measures: readonly [Measure, ...Measure[]],
): LevelRates[] {
  const groups = groupBy(context.rates(factors, measures), ({ by }) =>
    JSON.stringify(factors.map((factor) => by[factor])),
  );
  return [...groups.values()].flatMap((rates) => {
    const main = rates.find(({ measure }) => measure === measures[0]);
    if (main === undefined) return [];
    return [
      {
        by: main.by,
        name: factors.map((factor) => levelName(factor, main.by[factor] ?? '')).join(', '),
        isMissing: factors.some((factor) => main.by[factor] === NOT_RECORDED),
        main,
        rates,
      },
    ];
  });
}

/** Whether a level may be ranked: recorded, with a figure, and resting on enough. */
export function isRanked(level: LevelRates): boolean {
  return !level.isMissing && level.main.rate.kind === 'estimated' && !isThin(level.main);
}

/** Highest figure first; after them, in the factors' own order, those that may not be ranked. */
export function rankedLevels(levels: readonly LevelRates[]): LevelRates[] {
  const ranked = levels.filter(isRanked).sort((a, b) => estimateOf(b) - estimateOf(a));
  return [...ranked, ...levels.filter((level) => !isRanked(level))];
}

function estimateOf({ main }: LevelRates): number {
  return main.rate.kind === 'estimated' ? main.rate.estimate : Number.NEGATIVE_INFINITY;
}
