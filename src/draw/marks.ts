import { printable } from '../base/words.ts';
import { type Ink, type SeriesLook, STAND_IN } from './palette.ts';
import { SIZE } from './theme.ts';

/** A layer of a chart: one kind of mark over its own records. */
export interface Layer {
  /** How many records it holds; a layer of none is left out of the chart. */
  readonly count: number;
  readonly spec: Readonly<Record<string, unknown>>;
}

/** A record that a mark is drawn for; x and y in the units of the plot. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A record with another end. */
export interface Stretch extends Spot {
  readonly x2?: number;
  readonly y2?: number;
}

/** A record with words. */
export interface Words extends Spot {
  readonly text: string;
}

/** Which of x and y are pixels from the plot's top left corner rather than values on its axis. */
export type PixelAxes = 'x' | 'y' | 'xy';

/** How a stroke looks. */
export interface StrokeLook {
  readonly ink: Ink;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly pixels?: PixelAxes;
}

/** Straight strokes, from (x, y) to x2 or y2, alike in which they have: intervals, leaders, limits. */
export function strokes(values: readonly Stretch[], look: StrokeLook): Layer {
  const first = values[0];
  return layer('rule', values, {
    pixels: look.pixels,
    mark: {
      color: STAND_IN[look.ink],
      strokeWidth: look.width,
      ...(look.dash === undefined ? {} : { strokeDash: [...look.dash] }),
    },
    encoding: {
      ...(first?.x2 === undefined ? {} : { x2: { field: 'x2' } }),
      ...(first?.y2 === undefined ? {} : { y2: { field: 'y2' } }),
    },
  });
}

/** Filled ground between (x, y) and (x2, y2). */
export function patches(
  values: readonly Required<Stretch>[],
  look: { readonly ink: Ink; readonly opacity?: number; readonly pixels?: PixelAxes },
): Layer {
  return layer('rect', values, {
    pixels: look.pixels,
    mark: { color: STAND_IN[look.ink], opacity: look.opacity ?? 1 },
    encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
  });
}

/** Cells placed in pixels, each as dark as its `shade`, from 0 to 1, says. */
export function shadedCells(
  values: readonly (Required<Stretch> & { readonly shade: number })[],
  ink: Ink,
): Layer {
  return layer('rect', values, {
    pixels: 'xy',
    mark: { color: STAND_IN[ink] },
    encoding: {
      x2: { field: 'x2' },
      y2: { field: 'y2' },
      opacity: { field: 'shade', type: 'quantitative', scale: null },
    },
  });
}

/** Estimates: filled where there is enough behind them, hollow and grey where there is not. */
export function dots(
  values: readonly Spot[],
  look: SeriesLook & { readonly hollow?: boolean; readonly pixels?: PixelAxes },
): Layer {
  const hollow = look.hollow === true;
  return layer('point', values, {
    pixels: look.pixels,
    mark: {
      shape: look.shape,
      size: look.shape === 'circle' ? 80 : 90,
      stroke: STAND_IN[hollow ? 'thin' : look.ink],
      fill: STAND_IN[hollow ? 'paper' : look.ink],
    },
  });
}

/** Small arrow heads just beyond a spot, where an interval runs out of the picture. */
export function arrows(
  values: readonly Spot[],
  look: { readonly towards: 'left' | 'right' | 'up'; readonly ink: Ink },
): Layer {
  const colour = STAND_IN[look.ink];
  const beyond = { left: { xOffset: -9 }, right: { xOffset: 9 }, up: { yOffset: -9 } };
  return layer('point', values, {
    mark: {
      shape: `triangle-${look.towards}`,
      size: 36,
      strokeWidth: 1,
      stroke: colour,
      fill: colour,
      ...beyond[look.towards],
    },
  });
}

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
  const safe = values.map((value) => ({ ...value, text: printable(value.text) }));
  return layer('text', safe, {
    pixels: look.pixels,
    mark: {
      color: STAND_IN[look.ink ?? 'ink'],
      align: look.align ?? 'left',
      fontSize: look.size ?? SIZE.text,
      ...(look.bold === true ? { fontWeight: 'bold' } : {}),
      ...(look.angle === undefined ? {} : { angle: look.angle }),
    },
    encoding: { text: { field: 'text', type: 'nominal' } },
  });
}

/** A line through the records in order of x; `steps` holds each value until the next. */
export function trace(
  values: readonly Spot[],
  look: StrokeLook & { readonly steps?: boolean },
): Layer {
  return layer('line', values, {
    pixels: look.pixels,
    mark: {
      color: STAND_IN[look.ink],
      strokeWidth: look.width,
      strokeDash: [...(look.dash ?? [1, 0])],
      interpolate: look.steps === true ? 'step-after' : 'linear',
    },
  });
}

/** The ground between y and y2 along x: the interval of a curve. */
export function ribbon(
  values: readonly (Spot & { readonly y2: number })[],
  look: { readonly ink: Ink; readonly steps?: boolean },
): Layer {
  return layer('area', values, {
    mark: {
      color: STAND_IN[look.ink],
      opacity: 0.16,
      line: false,
      interpolate: look.steps === true ? 'step-after' : 'linear',
    },
    encoding: { y2: { field: 'y2' } },
  });
}

interface LayerParts {
  readonly mark: object;
  readonly encoding?: object;
  readonly pixels?: PixelAxes | undefined;
}

function layer(type: string, values: readonly Spot[], parts: LayerParts): Layer {
  const { mark, encoding, pixels = '' } = parts;
  return {
    count: values.length,
    spec: {
      data: { values: values.map((value) => ({ ...value })) },
      mark: { type, ...mark },
      encoding: {
        ...(pixels.includes('x') ? { x: IN_PIXELS.x } : {}),
        ...(pixels.includes('y') ? { y: IN_PIXELS.y } : {}),
        ...encoding,
      },
    },
  };
}

const IN_PIXELS = {
  x: { field: 'x', type: 'quantitative', scale: null },
  y: { field: 'y', type: 'quantitative', scale: null },
};
