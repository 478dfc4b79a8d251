import type { Config } from 'vega-lite';

/** Font sizes in pixels. Nothing in a picture is smaller than `small`. */
export const SIZE = { text: 13, small: 12 } as const;

/** The one look of every chart. Fonts are the page's own, so none is named here. */
export const THEME: Config = {
  aria: false,
  padding: 0,
  view: { stroke: null },
  text: { baseline: 'middle' },
  rule: { strokeCap: 'round' },
  point: { opacity: 1 },
};
