import type { Estimate } from './estimate.ts';
import {
  decimalsFor,
  formatDecimal,
  formatSmall,
  MINUS,
  RANGE_DASH,
  THIN_SPACE,
} from './format-number.ts';

/** How a figure reads: what one of it is, and in which scale the reader sees it. */
export type FigureStyle =
  | { readonly kind: 'percent' }
  /** A proportion's difference, in percentage points. */
  | { readonly kind: 'points' }
  /** `scale` turns the figure into the printed number: 10 for "per 10 line-hours". */
  | { readonly kind: 'rate'; readonly scale: number; readonly per: string }
  /** A ratio, of which 1 means no difference. */
  | { readonly kind: 'times' }
  /** A plain number with its unit after it, or none. */
  | { readonly kind: 'number'; readonly unit: string };

export const PERCENT: FigureStyle = { kind: 'percent' };
export const POINTS: FigureStyle = { kind: 'points' };
export const TIMES: FigureStyle = { kind: 'times' };
export const PER_10_LINE_HOURS: FigureStyle = { kind: 'rate', scale: 10, per: '10 line-hours' };

/** A figure in words and digits, in the pieces that a table, a chart and a sentence want. */
export interface FigureText {
  /** `62 %`, `1.8`, `+8 points`; `not known` where it cannot be given. */
  readonly value: string;
  /** `54–69`, `+1 to +15`; null where the figure cannot be given. */
  readonly interval: string | null;
  /** For a place whose heading carries the unit: `62 % (54–69)`, `1.8 (1.2–2.5)`. */
  readonly short: string;
  /** For running text: `1.8 per 10 line-hours (1.2–2.5)`; the reason where it cannot be given. */
  readonly long: string;
}

/** The words for a figure that cannot be given, where there is no room for the reason. */
export const NOT_KNOWN = 'not known';

/** Words for an estimate with its interval, or for its absence. */
export function figureText(figure: Estimate, style: FigureStyle): FigureText {
  if (figure.kind === 'not-estimable') {
    return { value: NOT_KNOWN, interval: null, short: NOT_KNOWN, long: figure.reason };
  }
  const { estimate, lower, upper } = figure;
  const write = writerFor({ estimate, lower, upper }, style);
  const interval = intervalText(lower, upper, write);
  const number = write(estimate);
  const value = number + unitAfter(number, style);
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  const bracket = ` (${interval})`;
  return { value, interval, short: value + bracket, long: value + per + bracket };
}

/** The figure in the scale the reader sees, e.g. 62 for a proportion of 0.62: what charts draw. */
export function shownScale(style: FigureStyle): number {
  if (style.kind === 'rate') return style.scale;
  return style.kind === 'number' || style.kind === 'times' ? 1 : 100;
}

interface Limits {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

function writerFor(limits: Limits, style: FigureStyle): (value: number) => string {
  if (style.kind === 'percent') return percentWriter(limits);
  if (style.kind === 'points') return pointsWriter(limits);
  if (style.kind === 'times') return timesWriter(limits);
  const scale = shownScale(style);
  const size = scale * (limits.estimate || limits.upper || Math.abs(limits.lower));
  const decimals = decimalsFor(size);
  return (value) => formatSmall(scale * value, decimals);
}

/**
 * Whole percents. A tenth where everything lies within two points of 0 or 100, so that a rare event
 * does not read as never; `<1` and `>99` where a whole percent would say none or all.
 */
function percentWriter({ lower, upper }: Limits): (value: number) => string {
  const decimals = upper < 0.02 || lower > 0.98 ? 1 : 0;
  const step = 10 ** -decimals;
  return (value) => {
    const percent = 100 * value;
    if (percent <= 0 || percent >= 100) return formatDecimal(percent, 0);
    if (percent < step / 2) return `<${formatDecimal(step, decimals)}`;
    if (100 - percent < step / 2) return `>${formatDecimal(100 - step, decimals)}`;
    return formatDecimal(percent, decimals);
  };
}

/** Whole points. A tenth where the limits are close, or where one would read as no difference. */
function pointsWriter({ lower, upper }: Limits): (value: number) => string {
  const readsAsNone = (limit: number) => limit !== 0 && Math.abs(limit) < 0.005;
  const decimals = upper - lower < 0.02 || readsAsNone(lower) || readsAsNone(upper) ? 1 : 0;
  return (unbounded) => {
    // A t interval of few trips may pass what a difference of two shares can be.
    const value = Math.min(1, Math.max(-1, unbounded));
    const text = formatDecimal(100 * value, decimals);
    return value > 0 && Number(text.replace(/,/g, '')) !== 0 ? `+${text}` : text;
  };
}

/** Two digits, and more where limits close to 1 would read as no difference. */
function timesWriter({ estimate, lower, upper }: Limits): (value: number) => string {
  const readsAsNone = (decimals: number) =>
    [estimate, lower, upper].some((value) => value !== 1 && Number(value.toFixed(decimals)) === 1);
  let decimals = decimalsFor(estimate);
  while (decimals < 3 && readsAsNone(decimals)) decimals++;
  return (value) => formatSmall(value, decimals);
}

/** A dash joins plain numbers; beside a sign or a comparison it would be misread, so `to` does. */
function intervalText(lower: number, upper: number, write: (value: number) => string): string {
  if (!Number.isFinite(upper) && !Number.isFinite(lower)) return 'no limits';
  if (!Number.isFinite(upper)) return `${write(lower)} or more`;
  if (!Number.isFinite(lower)) return `${write(upper)} or less`;
  const ends = [write(lower), write(upper)];
  const plain = ends.every((end) => !/[+<>]/.test(end) && !end.includes(MINUS));
  return ends.join(plain ? RANGE_DASH : ' to ');
}

function unitAfter(number: string, style: FigureStyle): string {
  if (style.kind === 'percent') return `${THIN_SPACE}%`;
  if (style.kind === 'points') return /^\D?1$/.test(number) ? ' point' : ' points';
  return style.kind === 'number' && style.unit !== '' ? `${THIN_SPACE}${style.unit}` : '';
}
