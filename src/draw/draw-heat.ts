import { formatCount, RANGE_DASH } from '../base/format-number.ts';
import { type Drawing, isNarrow, stackDrawings } from './drawing.ts';
import { type Layer, shadedCells, strokes, words } from './marks.ts';
import { plotChart } from './plot.ts';
import { fitText, widestText, wrapText } from './text-width.ts';
import { SIZE } from './theme.ts';

/** Counts of two factors against each other, every count printed in its shaded cell. */
export interface HeatChart {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** One list a row, one count a column; null where the two never met at all. */
  readonly counts: readonly (readonly (number | null)[])[];
  /** What the counts are and the two factors: `bites, by position and line type`. */
  readonly title: string;
}

const TEXT = { size: SIZE.text };
const SMALL = { size: SIZE.small };
const CELL_HEIGHT = 30;
const WIDEST_CELL = 96;
const LABEL_LINE = 16;
const MOST_LINES = 3;
const LONGEST_HEAD = 132;
/** The darkest shade still leaves the number on it legible, on paper as in the dark. */
const DARKEST = 0.42;

/**
 * Draws a cross-table. The factor with more levels runs downwards; columns that do not fit beside
 * each other go on below, under their own heads.
 */
export function drawHeat(chart: HeatChart, width: number): Drawing {
  const upright = chart.columns.length > chart.rows.length ? transposed(chart) : chart;
  const labelRoom = Math.min(isNarrow(width) ? 124 : 190, widestText(upright.rows, TEXT)) + 10;
  const numbers = upright.counts.flat().map(cellText);
  const least = Math.max(34, widestText(numbers, TEXT) + 10);
  const columns = Math.max(1, upright.columns.length);
  const most = Math.max(1, Math.floor((width - labelRoom) / least));
  const perBlock = Math.ceil(columns / Math.ceil(columns / most));
  const cell = Math.min(WIDEST_CELL, (width - labelRoom) / perBlock);
  const blocks: Drawing[] = [];
  for (let from = 0; from < columns; from += perBlock) {
    const title = from === 0 ? chart.title : '';
    blocks.push(
      blockDrawing(upright, { from, to: from + perBlock, width, labelRoom, cell, title }),
    );
  }
  return stackDrawings(blocks, 18);
}

/** A dash where the two never met: not the same as none. */
function cellText(count: number | null): string {
  return count === null ? RANGE_DASH : formatCount(count);
}

function transposed(chart: HeatChart): HeatChart {
  return {
    ...chart,
    rows: chart.columns,
    columns: chart.rows,
    counts: chart.columns.map((_, at) => chart.counts.map((row) => row[at] ?? null)),
  };
}

interface Block {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly labelRoom: number;
  readonly cell: number;
  readonly title: string;
}

function blockDrawing(chart: HeatChart, block: Block): Drawing {
  const { width, labelRoom, cell } = block;
  const heads = chart.columns.slice(block.from, block.to);
  const level = fitsLevel(heads, cell);
  const title = block.title === '' ? [] : wrapText(block.title, width - 4, { ...SMALL, most: 2 });
  const titleRoom = title.length * LABEL_LINE + (title.length > 0 ? 8 : 0);
  const headRoom = level ? levelHeadRoom(heads, cell) : uprightHeadRoom(heads);
  const top = titleRoom + headRoom;
  const height = top + CELL_HEIGHT * chart.rows.length + 2;
  const frame = {
    width,
    height,
    left: labelRoom,
    right: width - labelRoom - cell * heads.length,
    top,
    bottom: 2,
  };
  const titles = title.map((text, i) => ({ x: -labelRoom, y: LABEL_LINE * (i + 0.5) - top, text }));
  const layers = [
    ...cellLayers(chart, block, heads.length),
    ...(level ? levelHeads(heads, cell) : uprightHeads(heads, cell)),
    words(rowLabels(chart.rows, labelRoom), { pixels: 'xy' }),
    words(titles, { ink: 'muted', ...SMALL, pixels: 'xy' }),
  ];
  const plotted = plotChart(frame, { x: null, y: null }, layers);
  return { width, height, panels: [{ x: 0, y: 0, chart: plotted }] };
}

function rowLabels(rows: readonly string[], labelRoom: number) {
  return rows.map((row, i) => ({
    x: -labelRoom,
    y: CELL_HEIGHT * (i + 0.5),
    text: fitText(row, labelRoom - 10, TEXT),
  }));
}

function cellLayers(chart: HeatChart, { from, to, cell }: Block, columns: number): Layer[] {
  const most = Math.max(1, ...chart.counts.flat().map((count) => count ?? 0));
  const cells = chart.counts.flatMap((row, r) =>
    row.slice(from, to).map((count, c) => ({
      x: c * cell,
      x2: (c + 1) * cell,
      y: r * CELL_HEIGHT,
      y2: (r + 1) * CELL_HEIGHT,
      shade: count === null || count === 0 ? 0 : 0.05 + (DARKEST - 0.05) * Math.sqrt(count / most),
      text: cellText(count),
    })),
  );
  const middles = cells.map(({ x, y, shade, text }) => ({
    x: x + cell / 2,
    y: y + CELL_HEIGHT / 2,
    text,
    none: shade === 0,
  }));
  const number = { align: 'center', pixels: 'xy' } as const;
  return [
    shadedCells(
      cells.filter(({ shade }) => shade > 0),
      'first',
    ),
    ...gridLayers(chart.rows.length, columns, cell),
    words(
      middles.filter(({ none }) => !none),
      number,
    ),
    words(
      middles.filter(({ none }) => none),
      { ...number, ink: 'thin' },
    ),
  ];
}

function gridLayers(rows: number, columns: number, cell: number): Layer[] {
  const [right, bottom] = [columns * cell, rows * CELL_HEIGHT];
  const across = Array.from({ length: rows + 1 }, (_, i) => ({
    x: 0,
    x2: right,
    y: i * CELL_HEIGHT,
  }));
  const down = Array.from({ length: columns + 1 }, (_, i) => ({ x: i * cell, y: 0, y2: bottom }));
  const look = { ink: 'line', width: 1, pixels: 'xy' } as const;
  return [strokes(across, look), strokes(down, look)];
}

/** Whether every head fits its column level, without a word broken or cut. */
function fitsLevel(heads: readonly string[], cell: number): boolean {
  return heads.every((head) => {
    const words = head.split(/(?<=[\s-])/u).map((word) => word.trim());
    const lines = wrapText(head, cell - 6, { ...SMALL, most: MOST_LINES });
    return widestText(words, SMALL) <= cell - 6 && !lines.at(-1)?.endsWith('…');
  });
}

function levelHeadRoom(heads: readonly string[], cell: number): number {
  const lines = heads.map(
    (head) => wrapText(head, cell - 6, { ...SMALL, most: MOST_LINES }).length,
  );
  return LABEL_LINE * Math.max(1, ...lines) + 4;
}

function levelHeads(heads: readonly string[], cell: number): Layer[] {
  const placed = heads.flatMap((head, c) => {
    const lines = wrapText(head, cell - 6, { ...SMALL, most: MOST_LINES });
    return lines.map((text, i) => ({
      x: (c + 0.5) * cell,
      y: -4 - LABEL_LINE * (lines.length - i - 0.5),
      text,
    }));
  });
  return [words(placed, { align: 'center', ...SMALL, pixels: 'xy' })];
}

function uprightHeadRoom(heads: readonly string[]): number {
  return Math.ceil(Math.min(LONGEST_HEAD, widestText(heads, SMALL))) + 12;
}

/** Heads too long for their column read upwards. */
function uprightHeads(heads: readonly string[], cell: number): Layer[] {
  const placed = heads.map((head, c) => ({
    x: (c + 0.5) * cell,
    y: -8,
    text: fitText(head, LONGEST_HEAD, SMALL),
  }));
  return [words(placed, { ...SMALL, angle: -90, pixels: 'xy' })];
}
