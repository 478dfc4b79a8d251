import type { TopLevelSpec } from 'vega-lite';
import { MARK_KINDS, type MarkKind } from './marks.ts';
import { THEME } from './theme.ts';

/*
 * Every chart is one Vega-Lite specification filled with different records: compiling it takes
 * twenty times as long as drawing, so that is done once. How a mark looks stands in its records; what
 * lies at the ends of the plot is a parameter. There are no axes: their numbers and titles are words
 * like others, for the library keeps an axis from one filling to the next.
 */

/** How a mark of each kind is drawn, by the fields of its records. */
const MARKS: Readonly<Record<MarkKind, { readonly mark: object; readonly encoding?: object }>> = {
  // On half pixels a hairline is one pixel wide and not two half as dark.
  grid: straight({ xOffset: 0.5, x2Offset: 0.5, yOffset: 0.5, y2Offset: 0.5 }),
  patches: {
    mark: { type: 'rect', color: of('colour'), opacity: of('opacity') },
    encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
  },
  ribbons: {
    mark: {
      type: 'area',
      color: of('colour'),
      opacity: 0.16,
      line: false,
      interpolate: of('between'),
    },
    encoding: { y2: { field: 'y2' }, detail: { field: 'layer', type: 'nominal' } },
  },
  strokes: straight(),
  traces: {
    mark: {
      type: 'line',
      color: of('colour'),
      strokeWidth: of('width'),
      strokeDash: of('dash'),
      interpolate: of('between'),
    },
    encoding: { detail: { field: 'layer', type: 'nominal' } },
  },
  dots: {
    mark: {
      type: 'point',
      shape: of('shape'),
      size: of('size'),
      strokeWidth: of('outline'),
      stroke: of('stroke'),
      fill: of('fill'),
      xOffset: of('right'),
      yOffset: of('down'),
    },
  },
  words: {
    mark: {
      type: 'text',
      color: of('colour'),
      align: of('align'),
      fontSize: of('size'),
      fontWeight: of('weight'),
      angle: of('angle'),
    },
    encoding: { text: { field: 'text', type: 'nominal' } },
  },
};

function straight(offset: Readonly<Record<string, number>> = {}) {
  return {
    mark: {
      type: 'rule',
      color: of('colour'),
      strokeWidth: of('width'),
      strokeDash: of('dash'),
      ...offset,
    },
    encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
  };
}

function of(field: string) {
  return { expr: `datum.${field}` };
}

/** The specification of every chart, empty; parameters: the values at the ends of the plot. */
export const CHART_TEMPLATE = {
  $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
  width: 0,
  height: 0,
  autosize: 'none',
  background: null,
  config: THEME,
  params: [
    { name: 'xEnds', value: [0, 1] },
    { name: 'yEnds', value: [0, 1] },
  ],
  encoding: { x: direction('x'), y: direction('y') },
  layer: MARK_KINDS.map((kind) => ({ data: { name: kind }, ...MARKS[kind] })),
} as unknown as TopLevelSpec;

function direction(name: 'x' | 'y') {
  return {
    field: name,
    type: 'quantitative',
    scale: { domain: { expr: `${name}Ends` }, nice: false, zero: false },
    axis: null,
  };
}
