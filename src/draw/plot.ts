import type { TopLevelSpec } from 'vega-lite';
import type { Layer } from './marks.ts';
import { THEME } from './theme.ts';
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

export function plotWidth(frame: Frame): number {
  return frame.width - frame.left - frame.right;
}

export function plotHeight(frame: Frame): number {
  return frame.height - frame.top - frame.bottom;
}

/**
 * The specification of one chart of exactly the frame's size: nothing is laid out by the library,
 * so nothing can push anything else about.
 */
export function plotSpec(
  frame: Frame,
  directions: Directions,
  layers: readonly Layer[],
): TopLevelSpec {
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: plotWidth(frame),
    height: plotHeight(frame),
    padding: { left: frame.left, right: frame.right, top: frame.top, bottom: frame.bottom },
    autosize: 'none',
    background: null,
    config: THEME,
    encoding: {
      x: { field: 'x', type: 'quantitative', ...guides(directions.x) },
      y: { field: 'y', type: 'quantitative', ...guides(directions.y) },
    },
    layer: layers.filter((layer) => layer.count > 0).map((layer) => layer.spec),
  } as unknown as TopLevelSpec;
}

function guides(direction: Direction | null) {
  if (direction === null) return { scale: null };
  const { ticks, title, grid = true, labels = true } = direction;
  return {
    scale: { domain: [...ticks.domain], nice: false, zero: false },
    axis: {
      grid,
      labels,
      values: [...ticks.values],
      format: `,.${ticks.decimals}f`,
      title: title.length === 0 ? null : [...title],
    },
  };
}
