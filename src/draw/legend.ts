import { isNarrow } from './drawing.ts';
import { dots, type Layer, strokes, words } from './marks.ts';
import { seriesLook } from './palette.ts';
import { fitText, textWidth } from './text-width.ts';
import { SIZE } from './theme.ts';

const LINE = 22;
const KEY = 34;
const SPACE = 22;
const TEXT = { size: SIZE.text };

/** Height in pixels of the key to the series: 0 for one series, else one or more lines. */
export function legendHeight(series: readonly string[], width: number): number {
  const lines = legendPlaces(series, width).map((place) => place.line);
  return lines.length < 2 ? 0 : LINE * (Math.max(...lines) + 1);
}

/**
 * The key to the series: each one's mark, line and name, in reading order.
 *
 * @param corner where the key begins, in pixels from the plot's top left corner.
 */
export function legendLayers(
  series: readonly string[],
  width: number,
  corner: { readonly left: number; readonly top: number; readonly linesOnly?: boolean },
): Layer[] {
  if (series.length < 2) return [];
  return legendPlaces(series, width).flatMap(({ name, at, line }, index) => {
    const x = corner.left + at;
    const y = corner.top + LINE * line + LINE / 2 - 2;
    const look = seriesLook(index);
    const dash = corner.linesOnly === true ? { dash: look.dash } : {};
    return [
      strokes([{ x: x + 1, x2: x + 23, y }], { ink: look.ink, width: 2, ...dash, pixels: 'xy' }),
      ...(corner.linesOnly === true ? [] : [dots([{ x: x + 12, y }], { ...look, pixels: 'xy' })]),
      words([{ x: x + KEY - 4, y, text: name }], { pixels: 'xy' }),
    ];
  });
}

function legendPlaces(series: readonly string[], width: number) {
  let at = 0;
  let line = 0;
  return series.map((name) => {
    const text = fitText(name, width - KEY - 2, TEXT);
    const room = KEY + textWidth(text, TEXT);
    if (at > 0 && (at + room > width || (isNarrow(width) && series.length > 2))) {
      at = 0;
      line += 1;
    }
    const place = { name: text, at, line };
    at += room + SPACE;
    return place;
  });
}
