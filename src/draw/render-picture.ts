import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { printable } from '../base/words.ts';
import { cleanSvg } from './clean-svg.ts';
import type { Drawing, Picture, PictureWords } from './drawing.ts';
import { NARROW, WIDE } from './drawing.ts';
import { textWidth } from './text-width.ts';

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
  for (const panel of drawing.panels) {
    const inner = cleanSvg(await specMarkup(panel.spec, onWarning));
    const place =
      panel.x === 0 && panel.y === 0 ? '' : ` transform="translate(${panel.x},${panel.y})"`;
    groups.push(`<g${place}>${inner}</g>`);
  }
  return { width: drawing.width, height: drawing.height, markup: groups.join('') };
}

/** One chart from specification to markup, without a screen, in the library's own spelling. */
async function specMarkup(spec: TopLevelSpec, onWarning: (text: string) => void): Promise<string> {
  useOwnTextWidths();
  const logger = warningLogger(onWarning);
  const compiled = compile(spec, { logger }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: 'none', logger });
  try {
    return await view.toSVG();
  } finally {
    view.finalize();
  }
}

/**
 * The library asks a canvas for text widths where one is installed and else takes 0.8 of the font
 * size a letter; either way labels would be dropped by the machine's doing. Its measuring function
 * may be replaced, though its types do not say so.
 */
function useOwnTextWidths(): void {
  const { textMetrics } = vega as unknown as { textMetrics: { width: TextMeasure } };
  textMetrics.width = (item, text) =>
    textWidth(String(text ?? ''), { size: item.fontSize ?? 11, bold: item.fontWeight === 'bold' });
}

type TextMeasure = (
  item: { readonly fontSize?: number; readonly fontWeight?: string | number },
  text: unknown,
) => number;

function warningLogger(onWarning: (text: string) => void) {
  return vega.logger(vega.Warn, undefined, (_method, _level, words) =>
    onWarning(words.map(String).join(' ')),
  );
}

function escapeText(text: string): string {
  return printable(text).replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}
