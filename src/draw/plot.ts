import { gridLines, type Layer, MARK_KINDS, type MarkKind, type MarkRecord } from './marks.ts';
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
  readonly x: Axis;
  readonly y: Axis;
  readonly marks: Readonly<Record<MarkKind, readonly MarkRecord[]>>;
}

/** An axis: its values from left to right or from bottom to top, and what is written along it. */
export interface Axis {
  readonly domain: readonly [number, number];
  readonly ticks: readonly number[];
  /** How numbers are written, as a d3-format; empty for none. */
  readonly format: string;
  readonly title: readonly string[];
}

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
  const x = axisOf(directions.x, [0, plotWidth(frame)]);
  const y = axisOf(directions.y, [plotHeight(frame), 0]);
  const scales: Scales = {
    x: (pixels) => valueAt(x, pixels / plotWidth(frame)),
    y: (pixels) => valueAt(y, 1 - pixels / plotHeight(frame)),
  };
  const placed = [...gridOf(directions, x, y), ...layers].map((layer, at) => ({
    kind: layer.kind,
    records: layer.records.map((record) => inUnits({ ...record, layer: at }, layer.pixels, scales)),
  }));
  const ofKind = (kind: MarkKind) =>
    placed.filter((layer) => layer.kind === kind).flatMap(({ records }) => records);
  const marks = Object.fromEntries(MARK_KINDS.map((kind) => [kind, ofKind(kind)]));
  return { frame, x, y, marks: marks as Record<MarkKind, MarkRecord[]> };
}

function axisOf(direction: Direction | null, pixels: readonly [number, number]): Axis {
  if (direction === null) return { domain: pixels, ticks: [], format: '', title: [] };
  const { ticks, title, labels = true } = direction;
  const format = labels ? `,.${ticks.decimals}f` : '';
  return { domain: ticks.domain, ticks: ticks.values, format, title };
}

function gridOf(directions: Directions, x: Axis, y: Axis): Layer[] {
  const lines = (direction: Direction | null) =>
    direction === null || direction.grid === false ? [] : direction.ticks.values;
  const [left, right] = x.domain;
  const [bottom, top] = y.domain;
  return [
    gridLines(lines(directions.x).map((at) => ({ x: at, y: bottom, y2: top }))),
    gridLines(lines(directions.y).map((at) => ({ x: left, x2: right, y: at }))),
  ];
}

/** From pixels to the units of each axis. */
interface Scales {
  readonly x: (pixels: number) => number;
  readonly y: (pixels: number) => number;
}

function valueAt({ domain: [from, to] }: Axis, share: number): number {
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
