import type { Estimate } from '../base/estimate.ts';
import type { FigureStyle } from '../base/format-figure.ts';

/** One figure of a row: a dot with its interval, its words and the count behind it. */
export interface DotMark {
  readonly figure: Estimate;
  /** The count behind it with its noun: `214 bites`. */
  readonly n: string;
  /** Whether it rests on too little: drawn hollow and grey. */
  readonly thin: boolean;
  /** True where the figure is fixed by what it counts (100 of 100 bites): no interval is printed. */
  readonly exact?: boolean;
}

/** One level: its name and a mark for each series of the chart, in the series' order. */
export interface DotRow {
  readonly label: string;
  readonly marks: readonly DotMark[];
  /** What parts this row from the one above, where the rows are stages: `771 missed`. */
  readonly loss?: string;
}

/** A value that the rows are read against, drawn as a broken line across them. */
export interface Reference {
  /** In the figure's own unit, e.g. 0.58. */
  readonly value: number;
  readonly label: string;
}

/** A stretch of the axis that is shaded, such as differences too small to matter. */
export interface Shaded {
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

/** Dots and intervals by level, with label, figure and count in the same row. */
export interface DotChart {
  readonly rows: readonly DotRow[];
  /** Names of the series, one for each mark of a row; empty where there is but one. */
  readonly series: readonly string[];
  readonly style: FigureStyle;
  /** What the axis counts, with its unit. */
  readonly axisTitle: string;
  readonly reference: Reference | null;
  readonly shaded: Shaded | null;
  /** Values the axis must reach, in the figure's own unit; null leaves it to the rows. */
  readonly span: readonly [number, number] | null;
  /** Where the axis ends at the latest: an interval beyond it is cut off with an arrow. */
  readonly cutAt?: number;
}
