import { printable } from '../base/words.ts';
import type { Markup } from './chart-markup.ts';
import { markupOf } from './draw-aside.ts';
import type { Drawing, Picture, PictureWords } from './drawing.ts';
import { NARROW, WIDE } from './drawing.ts';

/** Renders a picture at both widths. `onWarning` hears what the chart library finds odd. */
export async function renderPicture(
  words: PictureWords,
  draw: (width: number) => Drawing,
  onWarning: (text: string) => void = () => {},
): Promise<Picture> {
  const [narrow, wide] = await Promise.all(
    [NARROW, WIDE].map((width) => drawingMarkup(draw(width), onWarning)),
  );
  return {
    words,
    narrow: svgElement({ ...words, id: `${words.id}-narrow` }, narrow ?? EMPTY),
    wide: svgElement({ ...words, id: `${words.id}-wide` }, wide ?? EMPTY),
  };
}

/** The inside of an `svg` element with its size in pixels. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly markup: string;
}

const NOTHING_DRAWN: Markup = { inner: '', warnings: [] };
const EMPTY: Sheet = { width: 0, height: 0, markup: '' };

/** The whole element, named and described for those who cannot see it. */
export function svgElement(words: PictureWords, sheet: Sheet): string {
  const { id, title, description } = words;
  const { width, height } = sheet;
  return (
    `<svg id="${id}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" ` +
    `role="img" aria-labelledby="${id}-title ${id}-desc">` +
    `<title id="${id}-title">${escapeText(title)}</title>` +
    `<desc id="${id}-desc">${escapeText(description)}</desc>${sheet.markup}</svg>`
  );
}

async function drawingMarkup(drawing: Drawing, onWarning: (text: string) => void): Promise<Sheet> {
  const groups: string[] = [];
  const drawn = await Promise.all(drawing.panels.map(({ chart }) => markupOf(chart)));
  for (const [at, panel] of drawing.panels.entries()) {
    const { inner, warnings } = drawn[at] ?? NOTHING_DRAWN;
    warnings.forEach(onWarning);
    const place =
      panel.x === 0 && panel.y === 0 ? '' : ` transform="translate(${panel.x},${panel.y})"`;
    groups.push(`<g${place}>${inner}</g>`);
  }
  return { width: drawing.width, height: drawing.height, markup: groups.join('') };
}

function escapeText(text: string): string {
  return printable(text).replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}
