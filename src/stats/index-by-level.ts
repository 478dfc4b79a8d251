import type { Refusal } from '../base/estimate.ts';
import { at, type Column } from './design-columns.ts';
import { type Design, type Factor, withLevel } from './design-matrix.ts';
import type { FittedModel } from './glm-model.ts';
import { type Level, tCritical } from './interval-level.ts';
import { type Covariance, contrastSpread } from './sandwich-contrast.ts';
import { type AverageMean, averageMean, ownMix } from './standardise-mean.ts';

/** One level of an index. */
export interface IndexLevel {
  readonly level: string;
  /** The index itself, above 0. */
  readonly index: number;
  /** Limits, or null with the reason in `note`. */
  readonly interval: { readonly lower: number; readonly upper: number } | null;
  /** Of ln(index); null without an interval because trips show no spread. */
  readonly logStandardError: number | null;
  /** Infinity means the normal distribution. */
  readonly degreesOfFreedom: number | null;
  readonly note: string | null;
  /** What the level is predicted to give for one unit of exposure. */
  readonly perUnit: number;
}

export interface IndexOptions extends Level {
  readonly covariance: Covariance;
  /** Rows to average over, in the model's own design when left out (e.g. a grid by `designFor`). */
  readonly rows?: Design;
  /** Weight of each of these rows; the log's own exposure when left out (equal for other rows). */
  readonly weights?: ArrayLike<number>;
  /** Average predicted rates, or their logarithms (which gives geometric means). */
  readonly average?: 'response' | 'link';
  /** What an index of 1 stands for: the mean of all levels, their geometric mean, or one per unit. */
  readonly relativeTo?: 'mean' | 'geometric-mean' | 'unit';
}

/** With fewer degrees of freedom an interval says nothing that could be relied on. */
const FEWEST_DEGREES = 4;

/**
 * Index by level of one factor, e.g. standardised catch per line-hour by month: each level is
 * predicted on the log's own mix of everything else, averaged, and set against the mean of the
 * levels, ln index = ln mₗ − ln(mean of m). Intervals by the delta method on the log scale; a contrast
 * with fewer than 4 degrees of freedom, or one that rests on a single trip, gets none but a note.
 * For a model with a log link. A factor with one level gives index 1 without an interval.
 * Source: Maunder & Punt 2004, Fish Res 70:141 (prediction on a fixed mix); Francis 1999 (index
 * against its mean; both from memory); delta method.
 */
export function indexByLevel(
  model: FittedModel,
  factor: string,
  options: IndexOptions,
): readonly IndexLevel[] | Refusal {
  const rows = options.rows ?? model.design;
  const own = options.rows === undefined ? ownMix(model) : new Float64Array(rows.rows).fill(1);
  const weights = options.weights ?? own;
  const averages: AverageMean[] = [];
  const { levels } = model.design.variables[factor] as Factor;
  for (const level of levels) {
    const average = averageMean(model, withLevel(rows, factor, level), weights);
    if (average.kind !== 'average') return average;
    averages.push(average);
  }
  const logs = averages.map((average) => logFigure(average, options.average ?? 'response'));
  const base = baseOf(logs, options.relativeTo ?? 'mean');
  return logs.map((figure, place) => {
    const contrast = figure.gradient.map((value, j) => value - at(base.gradient, j));
    const level = levels[place] as string;
    const value = figure.value - base.value;
    return { level, perUnit: Math.exp(figure.value), ...withLimits(value, contrast, options) };
  });
}

/** A logarithm and its derivative by each coefficient. */
interface LogFigure {
  readonly value: number;
  readonly gradient: Column;
}

function logFigure(average: AverageMean, scale: 'response' | 'link'): LogFigure {
  if (scale === 'link') return { value: average.link, gradient: average.averageRow };
  const gradient = average.gradient.map((value) => value / average.mean);
  return { value: Math.log(average.mean), gradient };
}

/** The logarithm that an index of 1 stands for. */
function baseOf(logs: readonly LogFigure[], relativeTo: 'mean' | 'geometric-mean' | 'unit') {
  const nothing = { value: 0, gradient: new Float64Array(logs[0]?.gradient.length ?? 0) };
  if (relativeTo === 'unit') return nothing;
  const largest = Math.max(...logs.map(({ value }) => value));
  const part = ({ value }: LogFigure): number =>
    relativeTo === 'mean' ? Math.exp(value - largest) : 1;
  const whole = logs.reduce((sum, figure) => sum + part(figure), 0);
  const meanLog = logs.reduce((sum, { value }) => sum + value, 0) / logs.length;
  return {
    value: relativeTo === 'mean' ? largest + Math.log(whole / logs.length) : meanLog,
    gradient: nothing.gradient.map((_, j) =>
      logs.reduce((sum, figure) => sum + (part(figure) / whole) * at(figure.gradient, j), 0),
    ),
  };
}

function withLimits(
  value: number,
  contrast: Column,
  { covariance, level }: IndexOptions,
): Omit<IndexLevel, 'level' | 'perUnit'> {
  const index = Math.exp(value);
  const none = { index, interval: null, logStandardError: null, degreesOfFreedom: null };
  if (contrast.every((part) => Math.abs(part) < 1e-12))
    return { ...none, note: 'There is nothing to compare it with, so it is 1 by definition.' };
  const spread = contrastSpread(covariance, contrast);
  if (spread.kind !== 'spread') return { ...none, note: spread.reason };
  const { standardError: logStandardError, degreesOfFreedom } = spread;
  const known = { index, logStandardError, degreesOfFreedom };
  if (degreesOfFreedom < FEWEST_DEGREES) {
    const note = `Too few trips for an interval: ${degreesOfFreedom.toFixed(1)} degrees of freedom, 4 are needed.`;
    return { ...known, interval: null, note };
  }
  const reach = tCritical(level, degreesOfFreedom) * logStandardError;
  const interval = { lower: Math.exp(value - reach), upper: Math.exp(value + reach) };
  return { ...known, interval, note: null };
}
