import { shownScale } from '../base/format-figure.ts';
import type { DotChart } from './dot-chart.ts';
import { intervalLayers, lossLayers } from './dot-marks.ts';
import type { Drawing } from './drawing.ts';
import { legendHeight, legendLayers } from './legend.ts';
import { type Layer, patches, type StrokeLook, strokes, type Words, words } from './marks.ts';
import { plotChart, plotWidth } from './plot.ts';
import { layOutRows, type PlacedWords, type RowLayout } from './row-layout.ts';
import { fitText, textWidth, wrapText } from './text-width.ts';
import { SIZE } from './theme.ts';
import { roundTicks, type Ticks } from './ticks.ts';

const NOTE_LINE = 20;
const TICK_LINE = 24;
const TITLE_LINE = 15;
const SMALL = { size: SIZE.small };
/** Room for one tick label and the space beside it. */
const TICK_ROOM = 48;

/** Draws dots and intervals by level, each row with its label, figure and count. */
export function drawDots(chart: DotChart, width: number): Drawing {
  const title = wrapText(chart.axisTitle, width - 24, { ...SMALL, most: 3 });
  const key = legendHeight(chart.series, width);
  const layout = layOutRows(chart, width, {
    top: key + (hasNotes(chart) ? NOTE_LINE : 4),
    bottom: TICK_LINE + TITLE_LINE * title.length,
  });
  const { frame } = layout;
  const ticks = dotTicks(chart, plotWidth(frame));
  const layers = [
    ...backdropLayers(chart, layout, ticks),
    ...lossLayers(chart, layout, ticks.domain),
    ...intervalLayers(chart, layout, ticks.domain),
    ...wordLayers(layout),
    ...legendLayers(chart.series, width, { left: layout.labelStart, top: -frame.top }),
  ];
  const plotted = plotChart(frame, { x: { ticks, title, grid: false }, y: null }, layers);
  return { width, height: frame.height, panels: [{ x: 0, y: 0, chart: plotted }] };
}

function hasNotes(chart: DotChart): boolean {
  return chart.reference !== null || chart.shaded !== null;
}

/**
 * The axis covers every dot and each interval that rests on enough; a thin level's long interval is
 * cut off with an arrow rather than squeezing all the others together.
 */
function dotTicks(chart: DotChart, plot: number): Ticks {
  const scale = shownScale(chart.style);
  const { cutAt = Number.POSITIVE_INFINITY } = chart;
  const figures = chart.rows.flatMap((row) => row.marks);
  const solid = figures.filter((mark) => !mark.thin);
  const ends = (solid.length > 0 ? solid : figures).flatMap(({ figure }) =>
    figure.kind === 'estimated' ? [figure.lower, Math.min(figure.upper, cutAt)] : [],
  );
  const middles = figures.flatMap(({ figure }) =>
    figure.kind === 'estimated' ? [figure.estimate] : [],
  );
  const { reference, shaded, span } = chart;
  const others = [reference?.value, shaded?.from, shaded?.to, ...(span ?? [])];
  const reached = [...ends, ...middles, ...others]
    .filter((value) => value !== undefined)
    .filter(Number.isFinite)
    .map((value) => value * scale);
  const range = [Math.min(...reached), Math.max(...reached)] as const;
  return roundTicks(reached.length === 0 ? [0, 1] : range, plot / TICK_ROOM);
}

function backdropLayers(chart: DotChart, layout: RowLayout, ticks: Ticks): Layer[] {
  const { labelStart, countEnd, partings } = layout;
  const scale = shownScale(chart.style);
  const plot = plotWidth(layout.frame);
  const across = partings.map((y) => ({ x: labelStart, x2: countEnd, y }));
  const layers: Layer[] = [];
  if (chart.shaded !== null) {
    const [x, x2] = [chart.shaded.from * scale, chart.shaded.to * scale];
    const ground = layout.rails.map(({ from, to }) => ({ x, x2, y: from, y2: to }));
    layers.push(patches(ground, { ink: 'wash' }));
    layers.push(noteLayer({ text: chart.shaded.label, at: (x + x2) / 2 }, plot, ticks));
  }
  layers.push(downStrokes(ticks.values, layout, { ink: 'line', width: 1 }));
  layers.push(strokes(across, { ink: 'line', width: 1, pixels: 'x' }));
  if (chart.reference !== null) {
    const at = chart.reference.value * scale;
    layers.push(downStrokes([at], layout, { ink: 'muted', width: 1.5, dash: [4, 3] }));
    layers.push(noteLayer({ text: chart.reference.label, at }, plot, ticks));
  }
  return layers;
}

function downStrokes(values: readonly number[], { rails }: RowLayout, look: StrokeLook): Layer {
  const segments = values.flatMap((x) => rails.map(({ from, to }) => ({ x, y: from, y2: to })));
  return strokes(segments, look);
}

/** Words above the plot, centred on their value as far as the plot's width allows. */
function noteLayer(
  note: { readonly text: string; readonly at: number },
  plot: number,
  { domain }: Ticks,
): Layer {
  if (note.text === '') return words([], {});
  const text = fitText(note.text, plot, SMALL);
  const half = textWidth(text, SMALL) / 2;
  const wanted = ((note.at - domain[0]) / (domain[1] - domain[0])) * plot;
  const x = Math.min(Math.max(wanted, half), plot - half);
  return words([{ x, y: -11, text }], { ink: 'muted', align: 'center', ...SMALL, pixels: 'x' });
}

function wordLayers(layout: RowLayout): Layer[] {
  const { labels, counts, marks, labelStart, valueEnd, countEnd } = layout;
  return [true, false].flatMap((thin) => {
    const ink = thin ? 'thin' : 'ink';
    const quiet = thin ? 'thin' : 'muted';
    const alike = (piece: { readonly thin: boolean }) => piece.thin === thin;
    const some = marks.filter(({ mark }) => mark.thin === thin);
    const known = some.filter(({ mark }) => mark.figure.kind === 'estimated');
    const unknown = some.filter(({ mark }) => mark.figure.kind === 'not-estimable');
    return [
      words(placed(labels.filter(alike), labelStart), { ink, pixels: 'x' }),
      words(
        known.map(({ value, y }) => ({ text: value, y, x: valueEnd })),
        { ink, align: 'right', bold: true, pixels: 'x' },
      ),
      words(
        known.map(({ interval, y }) => ({ text: interval, y, x: layout.intervalStart })),
        { ink: quiet, pixels: 'x' },
      ),
      words(
        unknown.map(({ value, y }) => ({ text: value, y, x: layout.valueStart })),
        { ink: quiet, pixels: 'x' },
      ),
      words(placed(counts.filter(alike), countEnd), { ink: quiet, align: 'right', pixels: 'x' }),
    ];
  });
}

function placed(pieces: readonly PlacedWords[], x: number): Words[] {
  return pieces.map(({ text, y }) => ({ text, y, x }));
}
