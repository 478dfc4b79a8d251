import { shownScale } from '../base/format-figure.ts';
import type { DotChart } from './dot-chart.ts';
import { arrows, dots, type Layer, type Stretch, strokes, type Words, words } from './marks.ts';
import { seriesLook } from './palette.ts';
import { plotWidth } from './plot.ts';
import type { PlacedMark, RowLayout } from './row-layout.ts';
import { textWidth } from './text-width.ts';
import { SIZE } from './theme.ts';

interface Shown {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  readonly y: number;
}

/** Intervals, dots and arrow heads of every mark that has a figure, series by series. */
export function intervalLayers(
  chart: DotChart,
  layout: RowLayout,
  domain: readonly [number, number],
): Layer[] {
  const several = new Set(layout.marks.map((mark) => mark.series));
  return [...several].flatMap((series) =>
    [true, false].flatMap((thin) => {
      const marks = layout.marks.filter((m) => m.series === series && m.mark.thin === thin);
      const scale = shownScale(chart.style);
      return markLayers(
        marks.flatMap((mark) => shown(mark, scale)),
        { series, thin, domain },
      );
    }),
  );
}

/** Between stages: a broken line from a row's dot to the level above it, named where it has room. */
export function lossLayers(
  chart: DotChart,
  layout: RowLayout,
  domain: readonly [number, number],
): Layer[] {
  const scale = shownScale(chart.style);
  const perPixel = (domain[1] - domain[0]) / plotWidth(layout.frame);
  const lines: Stretch[] = [];
  const names: Words[] = [];
  layout.marks.forEach((placed, index) => {
    const loss = chart.rows[index]?.loss;
    const [here] = shown(placed, scale);
    const above = layout.marks[index - 1];
    const [before] = above === undefined ? [] : shown(above, scale);
    if (loss === undefined || here === undefined || before === undefined) return;
    lines.push({ x: here.estimate, x2: before.estimate, y: here.y });
    const room = (before.estimate - here.upper) / perPixel - 12;
    const x = (before.estimate + here.upper) / 2;
    if (textWidth(loss, LOSS) <= room) names.push({ x, y: here.y - 9, text: loss });
  });
  return [
    strokes(lines, { ink: 'muted', width: 1, dash: [2, 3] }),
    words(names, { ink: 'muted', align: 'center', ...LOSS }),
  ];
}

const LOSS = { size: SIZE.small };

interface MarkLook {
  readonly series: number;
  readonly thin: boolean;
  readonly domain: readonly [number, number];
}

function markLayers(marks: readonly Shown[], { series, thin, domain }: MarkLook): Layer[] {
  const [low, high] = domain;
  const look = seriesLook(series);
  const ink = thin ? 'thin' : look.ink;
  const held = (value: number) => Math.min(high, Math.max(low, value));
  const spans = marks.map(({ lower, upper, y }) => ({ x: held(lower), x2: held(upper), y }));
  const below = marks.filter(({ lower }) => lower < low).map(({ y }) => ({ x: low, y }));
  const above = marks.filter(({ upper }) => upper > high).map(({ y }) => ({ x: high, y }));
  return [
    strokes(spans, { ink, width: thin ? 1.5 : 3 }),
    arrows(below, { towards: 'left', ink }),
    arrows(above, { towards: 'right', ink }),
    dots(
      marks.map(({ estimate, y }) => ({ x: held(estimate), y })),
      { ...look, hollow: thin },
    ),
  ];
}

function shown({ mark, y }: PlacedMark, scale: number): Shown[] {
  const { figure } = mark;
  if (figure.kind === 'not-estimable') return [];
  const { estimate, lower, upper } = figure;
  return [{ estimate: estimate * scale, lower: lower * scale, upper: upper * scale, y }];
}
