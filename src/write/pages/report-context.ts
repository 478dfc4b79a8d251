import type { FigureStyle } from '../../base/format-figure.ts';
import { PER_10_LINE_HOURS, PERCENT } from '../../base/format-figure.ts';
import { formatDecimal, THIN_SPACE } from '../../base/format-number.ts';
import { type Headline, headlines } from '../../decide/headlines.ts';
import type { Stock } from '../../decide/load-stock.ts';
import { respoolNow, stockForNextTrip } from '../../decide/next-trip.ts';
import type { RespoolAdvice } from '../../decide/respool-advice.ts';
import type { GroupRate } from '../../estimate/group-rate.ts';
import { isProportion } from '../../estimate/proportion.ts';
import { ratesBy } from '../../estimate/rates.ts';
import type { FactorName } from '../../tally/factors.ts';
import { MEASURE_NAMES, type Measure } from '../../tally/measures.ts';
import type { Question } from '../../tally/question.ts';
import type { TidySeason } from '../../tidy/tidy-season.ts';

/** The part of the log a report is about, and how intervals are made. */
export interface ReportOptions {
  /** Filters of the whole report. */
  readonly filter: Pick<Question, 'only' | 'from' | 'to'>;
  /** Confidence level of every interval, e.g. 0.95. */
  readonly level: number;
  readonly seed: number;
}

/** What every page of a report draws on. */
export interface ReportContext extends ReportOptions {
  readonly season: TidySeason;
  /** Measures by some factors, for the report's part of the log; what was asked before is kept. */
  readonly rates: (by: readonly FactorName[], measures: readonly Measure[]) => readonly GroupRate[];
  /** The season's answers, one line each. */
  readonly answers: () => readonly Headline[];
  /** Wear, respool ages and the reels now. */
  readonly respool: () => RespoolAdvice;
  /** What bait brings, and what to load for the next trip. */
  readonly stock: () => Stock;
}

/** Makes the context of one report. */
export function reportContext(season: TidySeason, options: ReportOptions): ReportContext {
  const { filter, level, seed } = options;
  const known = new Map<string, readonly GroupRate[]>();
  const rates = (by: readonly FactorName[], measures: readonly Measure[]) => {
    // By one factor several entries ask for several measures, and one pass serves them all; two
    // factors can make thousands of groups, so only what is asked is worked out for them.
    const wanted = by.length < 2 ? MEASURE_NAMES : measures;
    const key = [...by, ...wanted].join();
    const found =
      known.get(key) ?? ratesBy(season, { ...filter, by, measures: wanted, level, seed });
    known.set(key, found);
    return found.filter(({ measure }) => measures.includes(measure));
  };
  const asked = { ...filter, level, seed };
  return {
    ...options,
    season,
    rates,
    answers: () => headlines(season, asked),
    respool: () => respoolNow(season, asked),
    stock: () => stockForNextTrip(season, asked),
  };
}

/** `95 % interval`, as captions say it. */
export function intervalWords({ level }: ReportContext): string {
  const percent = Math.floor(level * 10_000) / 100;
  return `${formatDecimal(percent, Number.isInteger(percent) ? 0 : 1)}${THIN_SPACE}% interval`;
}

/** How pages write a measure. */
export function measureStyle(measure: Measure): FigureStyle {
  return isProportion(measure) ? PERCENT : PER_10_LINE_HOURS;
}

/** Heading of a column or an axis, with its unit. */
export const MEASURE_HEADS: Readonly<Record<Measure, string>> = {
  hookup_rate: 'hooked, % of bites',
  caught_rate: 'caught, % of hooked',
  release_rate: 'released, % of hooked',
  bite_to_boat: 'caught, % of bites',
  bites_per_line_hour: 'bites per 10 line-hours',
  hookups_per_line_hour: 'hooked per 10 line-hours',
  caught_per_line_hour: 'caught per 10 line-hours',
  released_per_line_hour: 'released per 10 line-hours',
};
