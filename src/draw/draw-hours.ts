import type { Estimate } from '../base/estimate.ts';
import type { FigureStyle } from '../base/format-figure.ts';
import { formatClock } from '../base/format-time.ts';
import { drawAlong } from './draw-along.ts';
import { type Drawing, isNarrow, stackDrawings } from './drawing.ts';
import { patches } from './marks.ts';
import { roundTicks } from './ticks.ts';
import { layOutUpright, uprightDrawing } from './upright.ts';

/** One hour of the day with its figure and the effort behind it. */
export interface HourFigure {
  /** 0 to 23: the hour that begins then. */
  readonly hour: number;
  readonly figure: Estimate;
  readonly thin: boolean;
  readonly lineHours: number;
}

/** The day from its first to its last fished hour: a rate above, the line-hours behind it below. */
export interface HoursChart {
  readonly hours: readonly HourFigure[];
  readonly style: FigureStyle;
  readonly yTitle: string;
}

const BAR_SHARE = 0.36;
const LEAST_LEFT = 52;

/** Draws the day: figures with intervals by hour, and under them how long the lines fished. */
export function drawHours(chart: HoursChart, width: number): Drawing {
  const fished = chart.hours.map(({ hour }) => hour);
  const first = fished.length === 0 ? 0 : Math.min(...fished);
  const last = fished.length === 0 ? 23 : Math.max(...fished);
  const span = [first, last + 1] as const;
  const ticks = Array.from({ length: last - first + 2 }, (_, i) => ({
    x: first + i,
    label: formatClock(60 * (first + i)),
    count: '',
  }));
  const rates = drawAlong(
    {
      series: [
        {
          name: 'rate',
          points: chart.hours.map(({ hour, figure, thin }) => ({ x: hour + 0.5, figure, thin })),
        },
      ],
      ticks,
      xSpan: span,
      style: chart.style,
      yTitle: chart.yTitle,
      xTitle: 'time of day, boat’s clock',
      joined: false,
      leastLeft: LEAST_LEFT,
    },
    width,
  );
  return stackDrawings([rates, effortDrawing(chart, { width, span })], 8);
}

/** Bars of line-hours, which are counted and not estimated. */
function effortDrawing(
  chart: HoursChart,
  sheet: { readonly width: number; readonly span: readonly [number, number] },
): Drawing {
  const text = {
    width: sheet.width,
    plotHeight: isNarrow(sheet.width) ? 56 : 64,
    series: [],
    yTitle: 'line-hours fished in each hour',
    xTitle: '',
    xLines: 0,
    leastLeft: LEAST_LEFT,
  };
  const most = Math.max(1, ...chart.hours.map(({ lineHours }) => lineHours));
  const upright = layOutUpright(text, [0, most]);
  const bars = chart.hours.map(({ hour, lineHours }) => ({
    x: hour + 0.5 - BAR_SHARE,
    x2: hour + 0.5 + BAR_SHARE,
    y: 0,
    y2: lineHours,
  }));
  return uprightDrawing(text, upright, {
    x: { ...roundTicks(sheet.span, 1), domain: sheet.span },
    layers: [patches(bars, { ink: 'muted' })],
  });
}
