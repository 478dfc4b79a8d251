import { formatDecimal } from '../base/format-number.ts';
import type { Drawing } from './drawing.ts';
import { legendHeight, legendLayers } from './legend.ts';
import { type Layer, words } from './marks.ts';
import { type Direction, type Frame, plotChart, plotHeight } from './plot.ts';
import { widestText, wrapText } from './text-width.ts';
import { SIZE } from './theme.ts';
import { roundTicks, type Ticks } from './ticks.ts';

const SMALL = { size: SIZE.small };
const LINE = 17;
const TICK_STEP = 42;
const RIGHT = 22;

/** What stands around a plot whose values grow upwards. */
export interface UprightWords {
  readonly width: number;
  /** Height of the plot itself, in pixels. */
  readonly plotHeight: number;
  /** Names of the series; the key is left out for fewer than two. */
  readonly series: readonly string[];
  readonly yTitle: string;
  readonly xTitle: string;
  /** Lines of words under the plot, apart from the title. */
  readonly xLines: number;
  /** The least room for the value axis, in pixels. */
  readonly leastLeft?: number;
  /** Whether a note stands between the titles and the plot. */
  readonly note?: boolean;
}

/** The frame of an upright plot, with what was worked out for it. */
export interface Upright {
  readonly frame: Frame;
  readonly y: Direction;
  readonly xTitle: readonly string[];
  readonly yTitle: readonly string[];
}

/** Lays out an upright plot: the value axis is titled above the plot, where it reads level. */
export function layOutUpright(text: UprightWords, range: readonly [number, number]): Upright {
  const { width } = text;
  const ticks = roundTicks(range, text.plotHeight / TICK_STEP);
  const labels = ticks.values.map((value) => formatDecimal(value, ticks.decimals));
  const yTitle = wrapText(text.yTitle, width - 4, { ...SMALL, most: 2 });
  const xTitle = wrapText(text.xTitle, width - 40, { ...SMALL, most: 2 });
  const top =
    legendHeight(text.series, width) + LINE * yTitle.length + (text.note === true ? LINE + 12 : 12);
  const bottom = LINE * (text.xLines + xTitle.length) + 11;
  const left = Math.max(text.leastLeft ?? 0, Math.ceil(widestText(labels, SMALL)) + 12);
  const height = top + text.plotHeight + bottom;
  return {
    frame: { width, height, left, right: RIGHT, top, bottom },
    y: { ticks, title: [] },
    xTitle,
    yTitle,
  };
}

/** The finished sheet: key, titles, then the caller's layers. */
export function uprightDrawing(
  text: UprightWords & { readonly linesOnly?: boolean },
  upright: Upright,
  content: { readonly x: Ticks; readonly layers: readonly Layer[]; readonly xLabels?: boolean },
): Drawing {
  const { frame, y, xTitle, yTitle } = upright;
  const { width } = text;
  const key = legendHeight(text.series, width);
  const under = plotHeight(frame) + LINE * text.xLines + 17;
  const layers = [
    ...content.layers,
    ...legendLayers(text.series, width, {
      left: -frame.left,
      top: -frame.top,
      linesOnly: text.linesOnly === true,
    }),
    titleLayer(yTitle, -frame.left, key - frame.top + LINE / 2),
    titleLayer(xTitle, 0, under),
  ];
  const x = { ticks: content.x, title: [], grid: false, labels: content.xLabels === true };
  return {
    width,
    height: frame.height,
    panels: [{ x: 0, y: 0, chart: plotChart(frame, { x, y }, layers) }],
  };
}

function titleLayer(lines: readonly string[], x: number, top: number): Layer {
  const places = lines.map((text, i) => ({ x, y: top + i * (LINE - 2), text }));
  return words(places, { ink: 'muted', ...SMALL, pixels: 'xy' });
}
