import type { Estimate } from '../base/estimate.ts';
import { type FigureStyle, shownScale } from '../base/format-figure.ts';
import { type Drawing, isNarrow, stackDrawings } from './drawing.ts';
import { arrows, dots, type Layer, strokes, trace, words } from './marks.ts';
import { seriesLook } from './palette.ts';
import { plotHeight, plotWidth } from './plot.ts';
import { widestText } from './text-width.ts';
import { SIZE } from './theme.ts';
import type { Ticks } from './ticks.ts';
import { layOutUpright, uprightDrawing } from './upright.ts';

/** A figure at a place along the axis: a month's number, an hour of the day. */
export interface AlongPoint {
  readonly x: number;
  readonly figure: Estimate;
  readonly thin: boolean;
}

/** A named place on the axis, and the count behind its figures; empty for none. */
export interface AlongTick {
  readonly x: number;
  readonly label: string;
  readonly count: string;
}

/** Figures with their intervals along months or hours, one to three series side by side. */
export interface AlongChart {
  readonly series: readonly { readonly name: string; readonly points: readonly AlongPoint[] }[];
  readonly ticks: readonly AlongTick[];
  /** First and last value of the axis. */
  readonly xSpan: readonly [number, number];
  readonly style: FigureStyle;
  readonly yTitle: string;
  readonly xTitle: string;
  /** Whether a thin line leads from figure to figure. */
  readonly joined: boolean;
  /** The least room for the value axis, in pixels, so that charts one under the other line up. */
  readonly leastLeft?: number;
}

/** The least that two figures may stand apart, in pixels. */
const LEAST_APART = 9;
const SIDE_STEP = 9;
const LINE = 17;
const SMALL = { size: SIZE.small };

/**
 * Draws figures with intervals along an axis; values begin at zero. An axis too long for the sheet
 * is drawn in stretches, one under the other, all to the same scale.
 */
export function drawAlong(chart: AlongChart, width: number): Drawing {
  const room = Math.max(1, Math.floor((width - 60) / (LEAST_APART * chart.series.length)));
  const stretches = Math.max(1, Math.ceil(chart.ticks.length / room));
  const range = valueRange(chart);
  if (stretches === 1) return stretchDrawing(chart, width, range);
  const [first, last] = chart.xSpan;
  const length = (last - first) / stretches;
  const drawings = Array.from({ length: stretches }, (_, i) =>
    stretchDrawing(cutOut(chart, first + i * length, first + (i + 1) * length), width, range),
  );
  return stackDrawings(drawings, 14);
}

function cutOut(chart: AlongChart, from: number, to: number): AlongChart {
  const inside = ({ x }: { readonly x: number }) => x >= from && x < to;
  return {
    ...chart,
    xSpan: [from, to],
    ticks: chart.ticks.filter(inside),
    series: chart.series.map((series) => ({ ...series, points: series.points.filter(inside) })),
  };
}

function stretchDrawing(
  chart: AlongChart,
  width: number,
  range: readonly [number, number],
): Drawing {
  const text = {
    width,
    plotHeight: isNarrow(width) ? 190 : 220,
    series: chart.series.map(({ name }) => name),
    yTitle: chart.yTitle,
    xTitle: chart.xTitle,
    xLines: chart.ticks.some(({ count }) => count !== '') ? 2 : 1,
    leastLeft: chart.leastLeft ?? 0,
  };
  const upright = layOutUpright(text, range);
  const x: Ticks = { domain: chart.xSpan, values: [], decimals: 0 };
  const perPixel = (chart.xSpan[1] - chart.xSpan[0]) / plotWidth(upright.frame);
  const [, high] = upright.y.ticks.domain;
  const layers = [
    ...chart.series.flatMap((_, index) => seriesLayers(chart, index, { perPixel, high })),
    ...tickLayers(chart, perPixel, plotHeight(upright.frame)),
  ];
  return uprightDrawing(text, upright, { x, layers });
}

/** From zero to the longest interval that rests on enough; a thin one is cut off with an arrow. */
function valueRange(chart: AlongChart): readonly [number, number] {
  const scale = shownScale(chart.style);
  const points = chart.series.flatMap((series) => series.points);
  const solid = points.filter((point) => !point.thin);
  const tops = (solid.length > 0 ? solid : points).flatMap(({ figure }) =>
    figure.kind === 'estimated' ? [figure.upper] : [],
  );
  const middles = points.flatMap(({ figure }) =>
    figure.kind === 'estimated' ? [figure.estimate] : [],
  );
  const high = Math.max(0, ...[...tops, ...middles].filter(Number.isFinite)) * scale;
  return [0, high > 0 ? high : 1];
}

interface Room {
  readonly perPixel: number;
  readonly high: number;
}

function seriesLayers(chart: AlongChart, index: number, { perPixel, high }: Room): Layer[] {
  const scale = shownScale(chart.style);
  const aside = (index - (chart.series.length - 1) / 2) * SIDE_STEP * perPixel;
  const look = seriesLook(index);
  const shown = (chart.series[index]?.points ?? []).flatMap(({ x, figure, thin }) => {
    if (figure.kind === 'not-estimable') return [];
    const [lower, upper] = [figure.lower * scale, figure.upper * scale];
    return [{ x: x + aside, y: figure.estimate * scale, lower, upper, thin }];
  });
  const line = shown.map(({ x, y }) => ({ x, y }));
  const joined = chart.joined && line.length > 1;
  return [
    trace(joined ? line : [], { ink: look.ink, width: 1, dash: look.dash }),
    ...[true, false].flatMap((thin) => {
      const some = shown.filter((point) => point.thin === thin);
      const ink = thin ? 'thin' : look.ink;
      const over = some.filter(({ upper }) => upper > high).map(({ x }) => ({ x, y: high }));
      const spans = some.map(({ x, lower, upper }) => ({ x, y: lower, y2: Math.min(high, upper) }));
      return [
        strokes(spans, { ink, width: thin ? 1.5 : 3 }),
        arrows(over, { towards: 'up', ink }),
        dots(
          some.map(({ x, y }) => ({ x, y })),
          { ...look, hollow: thin },
        ),
      ];
    }),
  ];
}

/** Labels under the plot; where there is no room for all of them, every second, third, … */
function tickLayers(chart: AlongChart, perPixel: number, bottom: number): Layer[] {
  const { ticks } = chart;
  const apart = (chart.xSpan[1] - chart.xSpan[0]) / perPixel / Math.max(1, ticks.length);
  const texts = ticks.flatMap(({ label, count }) => [label, count]);
  const every = Math.max(1, Math.ceil((widestText(texts, SMALL) + 8) / apart));
  const kept = ticks.filter((_, index) => index % every === 0);
  const look = { align: 'center', ...SMALL, pixels: 'y' } as const;
  return [
    words(
      kept.map(({ x, label }) => ({ x, y: bottom + 16, text: label })),
      { ...look, ink: 'ink' },
    ),
    words(
      kept
        .filter(({ count }) => count !== '')
        .map(({ x, count }) => ({ x, y: bottom + 16 + LINE, text: count })),
      { ...look, ink: 'muted' },
    ),
  ];
}
