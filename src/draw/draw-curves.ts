import { type Drawing, isNarrow } from './drawing.ts';
import { type Layer, ribbon, strokes, trace, words } from './marks.ts';
import { seriesLook } from './palette.ts';
import { plotHeight, plotWidth } from './plot.ts';
import { fitText, textWidth } from './text-width.ts';
import { SIZE } from './theme.ts';
import { roundTicks, type Ticks } from './ticks.ts';
import { layOutUpright, uprightDrawing } from './upright.ts';

/** A value of a curve with its interval, in the units of the axes. */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  readonly lower: number;
  readonly upper: number;
}

/** One to three curves, each with its band. */
export interface CurveChart {
  readonly curves: readonly { readonly name: string; readonly points: readonly CurvePoint[] }[];
  /** `steps` holds each value until the next, as a survival curve does. */
  readonly shape: 'steps' | 'line';
  readonly xTitle: string;
  readonly yTitle: string;
  /** Values that the axes must reach. */
  readonly xSpan: readonly [number, number];
  readonly ySpan: readonly [number, number];
  /** A level line across the plot, such as no difference; null for none. */
  readonly level: number | null;
  /** A value of x worth a line and a name, such as the cheapest age; null for none. */
  readonly mark: { readonly x: number; readonly label: string } | null;
}

const TICK_ROOM = 64;
const SMALL = { size: SIZE.small };

/** Draws curves with their bands. */
export function drawCurves(chart: CurveChart, width: number): Drawing {
  const text = {
    width,
    plotHeight: isNarrow(width) ? 190 : 240,
    series: chart.curves.map(({ name }) => name),
    yTitle: chart.yTitle,
    xTitle: chart.xTitle,
    xLines: 1,
    linesOnly: true,
    note: chart.mark !== null,
  };
  const points = chart.curves.flatMap((curve) => curve.points);
  const upright = layOutUpright(
    text,
    reach(
      points.flatMap(({ lower, y, upper }) => [lower, y, upper]),
      chart.ySpan,
    ),
  );
  const plot = plotWidth(upright.frame);
  const xRange = reach(
    points.map(({ x }) => x),
    chart.xSpan,
  );
  const x = roundTicks(xRange, plot / TICK_ROOM);
  const layers = [
    ...levelLayers(chart, x, upright.y.ticks),
    ...chart.curves.flatMap((curve, index) => curveLayers(curve.points, index, chart.shape)),
    ...markLayers(chart, x, { plot, bottom: plotHeight(upright.frame) }),
  ];
  return uprightDrawing(text, upright, { x, layers, xLabels: true });
}

function reach(values: readonly number[], span: readonly [number, number]) {
  const finite = [...values, ...span].filter(Number.isFinite);
  return [Math.min(...finite), Math.max(...finite)] as const;
}

function curveLayers(
  points: readonly CurvePoint[],
  index: number,
  shape: CurveChart['shape'],
): Layer[] {
  const { ink, dash } = seriesLook(index);
  const steps = shape === 'steps';
  return [
    ribbon(
      points.map(({ x, lower, upper }) => ({ x, y: lower, y2: upper })),
      { ink, steps },
    ),
    trace(
      points.map(({ x, y }) => ({ x, y })),
      { ink, width: 2, dash, steps },
    ),
  ];
}

function levelLayers(chart: CurveChart, x: Ticks, y: Ticks): Layer[] {
  const { level } = chart;
  if (level === null || level < y.domain[0] || level > y.domain[1]) return [];
  const line = { x: x.domain[0], x2: x.domain[1], y: level };
  return [strokes([line], { ink: 'muted', width: 1.5, dash: [4, 3] })];
}

function markLayers(
  chart: CurveChart,
  x: Ticks,
  room: { readonly plot: number; readonly bottom: number },
): Layer[] {
  if (chart.mark === null) return [];
  const text = fitText(chart.mark.label, room.plot, SMALL);
  const share = (chart.mark.x - x.domain[0]) / (x.domain[1] - x.domain[0]);
  const half = textWidth(text, SMALL) / 2;
  const at = Math.min(Math.max(share * room.plot, half), room.plot - half);
  return [
    strokes([{ x: share * room.plot, y: 0, y2: room.bottom }], {
      ink: 'ink',
      width: 1,
      dash: [4, 3],
      pixels: 'xy',
    }),
    words([{ x: at, y: -6, text }], { align: 'center', ...SMALL, pixels: 'xy' }),
  ];
}
