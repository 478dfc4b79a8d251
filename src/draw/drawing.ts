import type { Chart } from './plot.ts';

/** Pixel widths at which every picture is drawn: one for phones, one for all that is wider. */
export const NARROW = 320;
export const WIDE = 680;

/** One chart on the sheet, its top left corner at (x, y) pixels. */
export interface Panel {
  readonly x: number;
  readonly y: number;
  readonly chart: Chart;
}

/** A picture before it is rendered: a sheet of fixed pixel size with charts placed on it. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly panels: readonly Panel[];
}

/** What a picture says to someone who cannot see it, and the id its parts are named after. */
export interface PictureWords {
  /** Unique on its page; letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  /** What is drawn and what it shows, in sentences. */
  readonly description: string;
}

/** A picture ready for a page: the same content at both widths, as SVG markup. */
export interface Picture {
  readonly words: PictureWords;
  readonly narrow: string;
  readonly wide: string;
}

/** Whether a width is the phone's, where labels stand above their marks instead of beside them. */
export function isNarrow(width: number): boolean {
  return width < (NARROW + WIDE) / 2;
}

/** Drawings stacked into one, with the space between them in pixels. */
export function stackDrawings(drawings: readonly Drawing[], space: number): Drawing {
  let top = 0;
  const panels: Panel[] = [];
  for (const drawing of drawings) {
    panels.push(...drawing.panels.map((panel) => ({ ...panel, y: panel.y + top })));
    top += drawing.height + space;
  }
  const width = Math.max(0, ...drawings.map((drawing) => drawing.width));
  return { width, height: Math.max(0, top - space), panels };
}
