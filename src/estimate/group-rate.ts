import type { Estimate } from '../base/estimate.ts';
import type { Measure } from '../tally/measures.ts';

/**
 * One cell of a table of rates: a measure in one group of the log, with its interval.
 * Counts are of the group; `numerator` and `denominator` are what the figure itself divides, which
 * for a rate per line-hour leaves out bites that met no soak (`effort_cover` is the share left in).
 */
export interface GroupRate {
  readonly measure: Measure;
  /** factor → level, in the order asked; empty for the whole log. */
  readonly by: Readonly<Record<string, string>>;
  /** Trips with a denominator above zero in this group. */
  readonly trips: number;
  readonly bites: number;
  readonly hooked: number;
  readonly caught: number;
  readonly released: number;
  readonly kept: number;
  /** null: not recorded for this group. */
  readonly line_hours: number | null;
  readonly numerator: number;
  readonly denominator: number;
  readonly rate: Estimate;
  readonly design_effect: number | null;
  readonly effort_cover: number | null;
}
