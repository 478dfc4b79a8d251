import type { Config } from 'vega-lite';
import { STAND_IN } from './palette.ts';

/** Font sizes in pixels. Nothing in a picture is smaller than `small`. */
export const SIZE = { text: 13, small: 12 } as const;

/** The one look of every chart. Fonts are the page's own, so none is named here. */
export const THEME: Config = {
  aria: false,
  padding: 0,
  view: { stroke: null },
  axis: {
    domain: false,
    ticks: false,
    grid: false,
    labelColor: STAND_IN.muted,
    labelFontSize: SIZE.small,
    labelFontWeight: 'normal',
    labelPadding: 6,
    labelOverlap: 'greedy',
    labelFlush: false,
    titleColor: STAND_IN.muted,
    titleFontSize: SIZE.small,
    titleFontWeight: 'normal',
    titleAnchor: 'start',
    titlePadding: 6,
  },
  text: { baseline: 'middle' },
  rule: { strokeCap: 'round' },
  point: { opacity: 1 },
};
