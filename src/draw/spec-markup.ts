import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { cleanSvg } from './clean-svg.ts';
import { textWidth } from './text-width.ts';

/** A chart as markup, with what the chart library found odd about it. */
export interface Markup {
  /** What goes inside an `svg` element. */
  readonly inner: string;
  readonly warnings: readonly string[];
}

/** One chart from specification to markup, without a screen. */
export async function specMarkup(spec: TopLevelSpec): Promise<Markup> {
  useOwnTextWidths();
  const warnings: string[] = [];
  const logger = vega.logger(vega.Warn, undefined, (_method, _level, words) =>
    warnings.push(words.map(String).join(' ')),
  );
  const compiled = compile(spec, { logger }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: 'none', logger });
  try {
    return { inner: cleanSvg(await view.toSVG()), warnings };
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
