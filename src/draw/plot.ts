import { formatDecimal } from '../base/format-number.ts';
import {
  gridLines,
  type Layer,
  MARK_KINDS,
  type MarkKind,
  type MarkRecord,
  words,
} from './marks.ts';
import { textWidth } from './text-width.ts';
import { SIZE } from './theme.ts';
import type { Ticks } from './ticks.ts';

/** Where the plot lies on its sheet: the sheet's size, and what is left around it, in pixels. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** One direction of a plot that has an axis. */
export interface Direction {
  readonly ticks: Ticks;
  /** Lines of the axis title, with its unit; empty for none. */
  readonly title: readonly string[];
  /** Whether numbers stand at the ticks; true where not said. */
  readonly labels?: boolean;
  /** Whether hairlines run across the whole plot at each tick; true where not said. */
  readonly grid?: boolean;
}

/** Both directions; null where marks are placed in pixels from the plot's top left corner. */
export interface Directions {
  readonly x: Direction | null;
  readonly y: Direction | null;
}

/** What the chart template is filled with: one chart of exactly the frame's size. */
export interface Chart {
  readonly frame: Frame;
  /** What lies at the left and right ends of the plot, and at its bottom and top. */
  readonly x: Ends;
  readonly y: Ends;
  readonly marks: Readonly<Record<MarkKind, readonly MarkRecord[]>>;
}

type Ends = readonly [number, number];

export function plotWidth(frame: Frame): number {
  return frame.width - frame.left - frame.right;
}

export function plotHeight(frame: Frame): number {
  return frame.height - frame.top - frame.bottom;
}

/**
 * One chart of exactly the frame's size: nothing is laid out by the library, so nothing can push
 * anything else about. All places are brought to the units of the axes.
 */
export function plotChart(frame: Frame, directions: Directions, layers: readonly Layer[]): Chart {
  const [width, height] = [plotWidth(frame), plotHeight(frame)];
  const x: Ends = directions.x?.ticks.domain ?? [0, width];
  const y: Ends = directions.y?.ticks.domain ?? [height, 0];
  const scales: Scales = {
    x: (pixels) => valueAt(x, pixels / width),
    y: (pixels) => valueAt(y, 1 - pixels / height),
  };
  const placed = [...guides(directions, frame, { x, y }), ...layers].map((layer, at) => ({
    kind: layer.kind,
    records: layer.records.map((record) => inUnits({ ...record, layer: at }, layer.pixels, scales)),
  }));
  const ofKind = (kind: MarkKind) =>
    placed.filter((layer) => layer.kind === kind).flatMap(({ records }) => records);
  const marks = Object.fromEntries(MARK_KINDS.map((kind) => [kind, ofKind(kind)]));
  return { frame, x, y, marks: marks as Record<MarkKind, MarkRecord[]> };
}

/** Hairlines, numbers and titles of both directions. */
function guides(directions: Directions, frame: Frame, ends: Pick<Chart, 'x' | 'y'>): Layer[] {
  const [left, right] = ends.x;
  const [bottom, top] = ends.y;
  const lines = (direction: Direction | null) =>
    direction === null || direction.grid === false ? [] : direction.ticks.values;
  return [
    gridLines(lines(directions.x).map((at) => ({ x: at, y: bottom, y2: top }))),
    gridLines(lines(directions.y).map((at) => ({ x: left, x2: right, y: at }))),
    ...(directions.x === null ? [] : underPlot(directions.x, frame)),
    ...(directions.y === null ? [] : besidePlot(directions.y)),
  ];
}

const SMALL = { size: SIZE.small };
const QUIET = { ink: 'muted', ...SMALL } as const;
/** From the foot of the plot to the middle of its numbers, and of the title's first line. */
const NUMBERS_DOWN = 12;
const TITLE_DOWN = 28;
/** Numbers nearer than this read as one. */
const BETWEEN_NUMBERS = 6;
const TITLE_LINE = 14;
/** From the plot to the numbers left of it. */
const NUMBERS_ASIDE = 6;

/** Numbers under the plot, those left out that would run into the one before; the title below. */
function underPlot({ ticks, title, labels = true }: Direction, frame: Frame): Layer[] {
  const [height, [from, to]] = [plotHeight(frame), ticks.domain];
  let end = Number.NEGATIVE_INFINITY;
  const numbers = (labels ? ticks.values : []).flatMap((value) => {
    const text = formatDecimal(value, ticks.decimals);
    const middle = ((value - from) / (to - from)) * plotWidth(frame);
    const half = textWidth(text, SMALL) / 2;
    if (middle - half < end + BETWEEN_NUMBERS) return [];
    end = middle + half;
    return [{ x: value, y: height + NUMBERS_DOWN, text }];
  });
  const lines = title.map((text, line) => ({
    x: 0,
    y: height + TITLE_DOWN + TITLE_LINE * line,
    text,
  }));
  return [
    words(numbers, { ...QUIET, align: 'center', pixels: 'y' }),
    words(lines, { ...QUIET, pixels: 'xy' }),
  ];
}

/** Numbers left of the plot; what they are stands above it. */
function besidePlot({ ticks, labels = true }: Direction): Layer[] {
  const numbers = (labels ? ticks.values : []).map((y) => ({
    x: -NUMBERS_ASIDE,
    y,
    text: formatDecimal(y, ticks.decimals),
  }));
  return [words(numbers, { ...QUIET, align: 'right', pixels: 'x' })];
}

/** From pixels to the units of each axis. */
interface Scales {
  readonly x: (pixels: number) => number;
  readonly y: (pixels: number) => number;
}

function valueAt([from, to]: Ends, share: number): number {
  return from + share * (to - from);
}

function inUnits(record: MarkRecord, pixels: Layer['pixels'] = undefined, { x, y }: Scales) {
  const across = pixels?.includes('x') ?? false;
  const down = pixels?.includes('y') ?? false;
  return {
    ...record,
    ...(across ? { x: x(record.x) } : {}),
    ...(across && record.x2 !== undefined ? { x2: x(record.x2) } : {}),
    ...(down ? { y: y(record.y) } : {}),
    ...(down && record.y2 !== undefined ? { y2: y(record.y2) } : {}),
  };
}
