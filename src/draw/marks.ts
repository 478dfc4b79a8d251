import { printable } from '../base/words.ts';
import { type Ink, type SeriesLook, STAND_IN } from './palette.ts';
import { SIZE } from './theme.ts';

/** Records that one kind of mark is drawn for, from the same place of the drawing order. */
export interface Layer {
  readonly kind: MarkKind;
  /** Which of x and y are pixels from the plot's top left corner rather than values on its axis. */
  readonly pixels: PixelAxes | undefined;
  readonly records: readonly MarkRecord[];
}

/** The kinds of mark, those drawn first first: whatever comes later lies on top. */
export const MARK_KINDS = [
  'grid',
  'patches',
  'ribbons',
  'strokes',
  'traces',
  'dots',
  'words',
] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

/** A record as the chart template reads it: places, and beside them how the mark looks. */
export interface MarkRecord extends Spot {
  readonly x2?: number;
  readonly y2?: number;
  readonly [look: string]: string | number | readonly number[] | undefined;
}

/** A place; x and y in the units of the plot. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A place with another end. */
export interface Stretch extends Spot {
  readonly x2?: number;
  readonly y2?: number;
}

/** A place with words. */
export interface Words extends Spot {
  readonly text: string;
}

export type PixelAxes = 'x' | 'y' | 'xy';

/** How a stroke looks. */
export interface StrokeLook {
  readonly ink: Ink;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly pixels?: PixelAxes;
}

/** Straight strokes from (x, y) to x2 or y2: intervals, leaders, limits. */
export function strokes(values: readonly Stretch[], look: StrokeLook): Layer {
  return straight('strokes', values, look);
}

/** Hairlines beneath everything else. */
export function gridLines(values: readonly Stretch[]): Layer {
  return straight('grid', values, { ink: 'line', width: 1 });
}

function straight(kind: 'grid' | 'strokes', values: readonly Stretch[], look: StrokeLook): Layer {
  const { ink, width, dash = SOLID, pixels } = look;
  const looks = { colour: STAND_IN[ink], width, dash };
  const records = values.map(({ x, y, x2 = x, y2 = y }) => ({ x, y, x2, y2, ...looks }));
  return { kind, pixels, records };
}

const SOLID: readonly number[] = [];

/** Filled ground between (x, y) and (x2, y2). */
export function patches(
  values: readonly Required<Stretch>[],
  look: { readonly ink: Ink; readonly opacity?: number; readonly pixels?: PixelAxes },
): Layer {
  const { ink, opacity = 1, pixels } = look;
  const looks = { colour: STAND_IN[ink], opacity };
  return { kind: 'patches', pixels, records: values.map((value) => ({ ...value, ...looks })) };
}

/** Cells placed in pixels, each as dark as its `shade`, from 0 to 1, says. */
export function shadedCells(
  values: readonly (Required<Stretch> & { readonly shade: number })[],
  ink: Ink,
): Layer {
  const records = values.map(({ shade, ...place }) => ({
    ...place,
    colour: STAND_IN[ink],
    opacity: shade,
  }));
  return { kind: 'patches', pixels: 'xy', records };
}

/** Estimates: filled where there is enough behind them, hollow and grey where there is not. */
export function dots(
  values: readonly Spot[],
  look: SeriesLook & { readonly hollow?: boolean; readonly pixels?: PixelAxes },
): Layer {
  const hollow = look.hollow === true;
  const looks = {
    shape: look.shape,
    size: look.shape === 'circle' ? 80 : 90,
    outline: 2,
    stroke: STAND_IN[hollow ? 'thin' : look.ink],
    fill: STAND_IN[hollow ? 'paper' : look.ink],
    right: 0,
    down: 0,
  };
  return {
    kind: 'dots',
    pixels: look.pixels,
    records: values.map(({ x, y }) => ({ x, y, ...looks })),
  };
}

/** Small arrow heads just beyond a spot, where an interval runs out of the picture. */
export function arrows(
  values: readonly Spot[],
  look: { readonly towards: 'left' | 'right' | 'up'; readonly ink: Ink },
): Layer {
  const { towards, ink } = look;
  const looks = {
    shape: `triangle-${towards}`,
    size: 36,
    outline: 1,
    stroke: STAND_IN[ink],
    fill: STAND_IN[ink],
    ...BEYOND[towards],
  };
  return {
    kind: 'dots',
    pixels: undefined,
    records: values.map(({ x, y }) => ({ x, y, ...looks })),
  };
}

/** Pixels from the spot to its arrow head. */
const BEYOND = {
  left: { right: -9, down: 0 },
  right: { right: 9, down: 0 },
  up: { right: 0, down: -9 },
} as const;

/** How words are set. */
export interface WordsLook {
  readonly ink?: Ink;
  readonly align?: 'left' | 'center' | 'right';
  readonly size?: number;
  readonly bold?: boolean;
  /** Degrees, clockwise. */
  readonly angle?: number;
  readonly pixels?: PixelAxes;
}

/** Words at their spots, centred on them vertically. */
export function words(values: readonly Words[], look: WordsLook): Layer {
  const { ink = 'ink', align = 'left', size = SIZE.text, bold = false, angle = 0, pixels } = look;
  const looks = { colour: STAND_IN[ink], align, size, weight: bold ? 'bold' : 'normal', angle };
  const records = values.map(({ x, y, text }) => ({ x, y, text: printable(text), ...looks }));
  return { kind: 'words', pixels, records };
}

/** A line through the records in order of x; `steps` holds each value until the next. */
export function trace(
  values: readonly Spot[],
  look: StrokeLook & { readonly steps?: boolean },
): Layer {
  const { ink, width, dash = SOLID, steps = false, pixels } = look;
  const looks = { colour: STAND_IN[ink], width, dash, between: between(steps) };
  return { kind: 'traces', pixels, records: values.map(({ x, y }) => ({ x, y, ...looks })) };
}

/** The ground between y and y2 along x: the interval of a curve. */
export function ribbon(
  values: readonly (Spot & { readonly y2: number })[],
  look: { readonly ink: Ink; readonly steps?: boolean },
): Layer {
  const { ink, steps = false } = look;
  const looks = { colour: STAND_IN[ink], between: between(steps) };
  const records = values.map(({ x, y, y2 }) => ({ x, y, y2, ...looks }));
  return { kind: 'ribbons', pixels: undefined, records };
}

const between = (steps: boolean): string => (steps ? 'step-after' : 'linear');
