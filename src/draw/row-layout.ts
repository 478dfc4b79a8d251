import { figureText, NOT_KNOWN } from '../base/format-figure.ts';
import type { DotChart, DotMark, DotRow } from './dot-chart.ts';
import { isNarrow } from './drawing.ts';
import type { Frame } from './plot.ts';
import { fitText, textWidth, widestText, wrapText } from './text-width.ts';
import { SIZE } from './theme.ts';

/** A mark with its place: pixels from the top of the plot, and its words in two pieces. */
export interface PlacedMark {
  readonly mark: DotMark;
  readonly series: number;
  readonly y: number;
  /** `62 %`, set bold, its right end at the layout's `valueEnd`. */
  readonly value: string;
  /** `(54–69)`, following on; empty where there is none. */
  readonly interval: string;
}

/** A piece of a row's label or its count, with its place. */
export interface PlacedWords {
  readonly text: string;
  readonly y: number;
  readonly thin: boolean;
}

/** A dot chart laid out: every word fits its column, no row touches the next. */
export interface RowLayout {
  readonly frame: Frame;
  readonly marks: readonly PlacedMark[];
  readonly labels: readonly PlacedWords[];
  readonly counts: readonly PlacedWords[];
  /** Where rows part, in pixels from the top of the plot; for hairlines. */
  readonly partings: readonly number[];
  /** From where to where grid lines run, in pixels down: never through a label. */
  readonly rails: readonly { readonly from: number; readonly to: number }[];
  /** Pixels from the plot's left edge. */
  readonly labelStart: number;
  readonly valueStart: number;
  readonly valueEnd: number;
  readonly intervalStart: number;
  readonly countEnd: number;
}

const GUTTER = 14;
const WORD_SPACE = 5;
/** Half a tick label, so that the first one on a narrow sheet is not cut off. */
const NARROW_LEFT = 16;
const LABEL_ROOM = 178;
const LINE = { wide: 24, narrow: 22 } as const;
const LABEL_LINE = 18;
const ROW_GAP = { wide: 6, narrow: 12 } as const;
const TEXT = { size: SIZE.text };
const BOLD = { size: SIZE.text, bold: true };

/** Room that the caller needs above and below the rows, in pixels. */
export interface Margins {
  readonly top: number;
  readonly bottom: number;
}

/**
 * Lays out the rows of a dot chart. On wide sheets the label stands left of the dots and figure and
 * count right of them; on narrow ones label and count stand above the dots.
 */
export function layOutRows(chart: DotChart, width: number, margins: Margins): RowLayout {
  const narrow = isNarrow(width);
  const columns = measureColumns(chart, narrow);
  const labels = chart.rows.map((row) => row.label);
  const labelRoom = Math.min(LABEL_ROOM, widestText(labels, TEXT));
  const placed = placeRows(chart, { width, labelRoom, narrow });
  const left = narrow ? NARROW_LEFT : Math.ceil(labelRoom + GUTTER);
  const right = Math.ceil(GUTTER + columns.figure + columns.count);
  const plot = width - left - right;
  const valueEnd = plot + GUTTER + columns.value;
  return {
    ...placed,
    frame: { width, height: margins.top + placed.height + margins.bottom, left, right, ...margins },
    rails: narrow ? placed.rails : [{ from: 0, to: placed.height }],
    labelStart: -left,
    valueStart: valueEnd - columns.value,
    valueEnd,
    intervalStart: valueEnd + WORD_SPACE,
    countEnd: width - left,
  };
}

/** The room each column of words takes, in pixels. */
function measureColumns(chart: DotChart, narrow: boolean) {
  const marks = chart.rows.flatMap((row) => row.marks);
  const pieces = marks.map((mark) => figurePieces(mark, chart));
  const value = widestText(
    pieces.filter((piece) => piece.value !== NOT_KNOWN).map((piece) => piece.value),
    BOLD,
  );
  const interval = widestText(
    pieces.map((piece) => piece.interval),
    TEXT,
  );
  const counts = marks.map((mark) => mark.n);
  return {
    value,
    figure: Math.max(value + WORD_SPACE + interval, textWidth(NOT_KNOWN, TEXT)),
    count: narrow ? 0 : widestText(counts, TEXT) + GUTTER,
  };
}

interface RowRoom {
  readonly width: number;
  readonly labelRoom: number;
  readonly narrow: boolean;
}

function placeRows(chart: DotChart, room: RowRoom) {
  const marks: PlacedMark[] = [];
  const labels: PlacedWords[] = [];
  const counts: PlacedWords[] = [];
  const partings: number[] = [];
  const rails: { from: number; to: number }[] = [];
  let top = 0;
  for (const row of chart.rows) {
    if (top > 0) partings.push(top);
    const place = room.narrow ? placeNarrowRow(row, top, room) : placeWideRow(row, top, room);
    marks.push(...place.marks.map((mark) => ({ ...mark, ...figurePieces(mark.mark, chart) })));
    labels.push(...place.labels);
    counts.push(...place.counts);
    rails.push({ from: place.railTop, to: place.bottom });
    top = place.bottom;
  }
  return { marks, labels, counts, partings, rails, height: Math.max(top, 1) };
}

function placeWideRow(row: DotRow, top: number, { labelRoom }: RowRoom) {
  const lines = wrapText(row.label, labelRoom, { ...TEXT, most: 2 });
  const thin = isThin(row);
  const inner = Math.max(LINE.wide * row.marks.length, LABEL_LINE * lines.length);
  const middle = top + (inner + ROW_GAP.wide) / 2;
  const marks = row.marks.map((mark, series) => ({
    mark,
    series,
    y: middle + (series - (row.marks.length - 1) / 2) * LINE.wide,
  }));
  return {
    marks,
    labels: lines.map((text, i) => ({
      text,
      thin,
      y: middle + (i - (lines.length - 1) / 2) * LABEL_LINE,
    })),
    counts: shareCount(row)
      ? [{ text: row.marks[0]?.n ?? '', y: middle, thin }]
      : marks.map(({ mark, y }) => ({ text: mark.n, y, thin: mark.thin })),
    railTop: top,
    bottom: top + inner + ROW_GAP.wide,
  };
}

/** One count for the row where all its marks share it; else each mark's own, on the label's line. */
function placeNarrowRow(row: DotRow, top: number, { width }: RowRoom) {
  const y = top + ROW_GAP.narrow / 2 + LABEL_LINE / 2;
  const counts = row.marks.map((mark) => mark.n).filter((n) => n !== '');
  const count = [...new Set(counts)].join(', ');
  const room = width - textWidth(count, TEXT) - GUTTER;
  const thin = isThin(row);
  const first = y + LABEL_LINE / 2 + LINE.narrow / 2;
  return {
    marks: row.marks.map((mark, series) => ({ mark, series, y: first + series * LINE.narrow })),
    labels: [{ text: fitText(row.label, room, TEXT), y, thin }],
    counts: [{ text: count, y, thin }],
    railTop: first - LINE.narrow / 2,
    bottom: first + (row.marks.length - 0.5) * LINE.narrow + ROW_GAP.narrow / 2,
  };
}

function shareCount(row: DotRow): boolean {
  return new Set(row.marks.map((mark) => mark.n)).size === 1;
}

function isThin(row: DotRow): boolean {
  return row.marks.length > 0 && row.marks.every((mark) => mark.thin);
}

function figurePieces(mark: DotMark, chart: DotChart) {
  const { value, interval } = figureText(mark.figure, chart.style);
  return { value, interval: interval === null || mark.exact === true ? '' : `(${interval})` };
}
