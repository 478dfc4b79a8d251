/**
 * The colours of every chart and page, by what they are for. Charts carry a stand-in hex for each,
 * which `clean-svg.ts` turns into a CSS variable, so that one drawing serves light, dark and paper.
 *
 * Source of the three series colours, light and dark: Okabe & Ito 2008, "Color Universal Design",
 * whose eight colours stay apart for the common kinds of colour blindness. Greys and tints are ours.
 */
const INKS = {
  /** Words and numbers. */
  ink: { light: '#14222d', dark: '#e6edf2', print: '#000000' },
  /** Axis labels, units, secondary words. */
  muted: { light: '#51626f', dark: '#a3b4c1', print: '#333333' },
  /** Hairlines: grid, table rules. */
  line: { light: '#d5dde3', dark: '#2c3b47', print: '#bbbbbb' },
  /** The ground of the page. */
  paper: { light: '#ffffff', dark: '#0f1a23', print: '#ffffff' },
  /** A quiet ground behind something: bands, table heads. */
  wash: { light: '#eef3f6', dark: '#182732', print: '#eeeeee' },
  /** Figures that rest on too little. */
  thin: { light: '#64727d', dark: '#8496a3', print: '#666666' },
  first: { light: '#0072b2', dark: '#56b4e9', print: '#000000' },
  second: { light: '#d55e00', dark: '#e69f00', print: '#555555' },
  third: { light: '#009e73', dark: '#009e73', print: '#888888' },
} as const;

/** What a colour is for. */
export type Ink = keyof typeof INKS;
export type Scheme = 'light' | 'dark' | 'print';

export const INK_NAMES = Object.keys(INKS) as readonly Ink[];

/** Stand-in hex colours, unlike any real one, for use inside a chart's specification. */
export const STAND_IN: Readonly<Record<Ink, string>> = Object.fromEntries(
  INK_NAMES.map((ink, index) => [ink, `#fe01${(0xa0 + index).toString(16)}`]),
) as Record<Ink, string>;

/** The stand-in's way back: `#fe01a0` to `var(--ink)`. */
export const VARIABLE_OF: ReadonlyMap<string, string> = new Map(
  INK_NAMES.map((ink) => [STAND_IN[ink], inkVariable(ink)]),
);

/** A colour for markup and style sheets, e.g. `var(--ink)`. */
export function inkVariable(ink: Ink): string {
  return `var(--${ink})`;
}

/** The declarations that give every variable its colour in one scheme. */
export function inkDeclarations(scheme: Scheme): string {
  return INK_NAMES.map((ink) => `--${ink}:${INKS[ink][scheme]}`).join(';');
}

/** A series' colour, point shape and dash, always given together: never colour alone. */
export interface SeriesLook {
  readonly ink: Ink;
  readonly shape: 'circle' | 'diamond' | 'square';
  readonly dash: readonly number[];
}

const SERIES_LOOKS: readonly SeriesLook[] = [
  { ink: 'first', shape: 'circle', dash: [1, 0] },
  { ink: 'second', shape: 'diamond', dash: [6, 3] },
  { ink: 'third', shape: 'square', dash: [2, 3] },
];

/** The look of the first, second or third series; a fourth is a programmer's mistake. */
export function seriesLook(index: number): SeriesLook {
  const look = SERIES_LOOKS[index];
  if (look === undefined) throw new Error(`A chart shows at most three series, not ${index + 1}.`);
  return look;
}
