import * as vega from 'vega';
import { compile } from 'vega-lite';
import { CHART_TEMPLATE } from './chart-template.ts';
import { cleanSvg } from './clean-svg.ts';
import { MARK_KINDS } from './marks.ts';
import { type Chart, plotHeight, plotWidth } from './plot.ts';
import { textWidth } from './text-width.ts';

/** A chart as markup, with what the chart library found odd about it. */
export interface Markup {
  /** What goes inside an `svg` element. */
  readonly inner: string;
  readonly warnings: readonly string[];
}

/** One chart after another, from its records to markup, without a screen. */
export function chartMarkup(chart: Chart): Promise<Markup> {
  const drawn = before.then(() => draw(chart));
  before = drawn.catch(() => {
    view = null;
  });
  return drawn;
}

/** The one view is filled anew for each chart, so a chart waits for the one before it. */
let before: Promise<unknown> = Promise.resolve();
let view: vega.View | null = null;
let warnings: string[] = [];

async function draw(chart: Chart): Promise<Markup> {
  view ??= emptyView();
  warnings = [];
  const { left, right, top, bottom } = chart.frame;
  view
    .width(plotWidth(chart.frame))
    .height(plotHeight(chart.frame))
    .padding({ left, right, top, bottom })
    .signal('xEnds', [...chart.x])
    .signal('yEnds', [...chart.y]);
  for (const kind of MARK_KINDS) view.data(kind, [...chart.marks[kind]]);
  return { inner: cleanSvg(await view.toSVG()), warnings };
}

function emptyView(): vega.View {
  useOwnTextWidths();
  const logger = vega.logger(vega.Warn, undefined, (_method, _level, words) =>
    warnings.push(words.map(String).join(' ')),
  );
  const { spec } = compile(CHART_TEMPLATE, { logger });
  return new vega.View(vega.parse(spec), { renderer: 'none', logger });
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
