import { printable } from '../base/words.ts';
import type { Reach, Side } from '../settings/settings.ts';
import { isNarrow } from './drawing.ts';
import { fitText, type TextStyle, wrapText } from './text-width.ts';
import { SIZE } from './theme.ts';

/** A position of the spread with what it brought. */
export interface BoatPosition {
  readonly name: string;
  /** null: the settings do not place it on the boat. */
  readonly side: Side | null;
  readonly reach: Reach | null;
  readonly bites: number;
  /** `62 % (54–69)`, or why there is none. */
  readonly figure: string;
  /** `214 bites`. */
  readonly n: string;
  readonly thin: boolean;
}

/** A position with its place on the sheet, in pixels. */
export interface PlacedPosition {
  readonly position: BoatPosition;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly words: readonly PlacedLine[];
  /** The line from the boat to the bait, as an SVG path; null where it is not placed on the boat. */
  readonly line: string | null;
}

export interface PlacedLine {
  readonly text: string;
  readonly kind: 'name' | 'figure' | 'n';
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** The whole picture laid out. */
export interface BoatLayout {
  readonly width: number;
  readonly height: number;
  /** The hull: its bow at the top of the sheet. */
  readonly hull: Hull;
  readonly positions: readonly PlacedPosition[];
}

export interface Hull {
  readonly centre: number;
  readonly top: number;
  readonly width: number;
  readonly length: number;
}

/** How far out a bait swims, nearest first; only the order counts. */
const OUT: Readonly<Record<Reach, number>> = { pitch: 0, flat: 1, short: 2, middle: 3, long: 4 };
const LARGEST = 24;
const SMALLEST = 5;
const LINE = 17;
const SLOT_GAP = 18;
/** On narrow sheets, the room between the hull and the words beside it. */
const GAP = 12;
const NAME: TextStyle = { size: SIZE.text, bold: true };
const TEXT: TextStyle = { size: SIZE.text };

/**
 * Places any number of positions round the boat: port lines left, starboard lines right, the nearer
 * above the farther, centre lines and those without a place under the boat. Each has a slot of its
 * own, so nothing overlaps whatever the names are.
 */
export function layOutBoat(positions: readonly BoatPosition[], width: number): BoatLayout {
  const narrow = isNarrow(width);
  const hull = narrow
    ? { centre: width / 2, top: 10, width: 46, length: 132 }
    : { centre: width / 2, top: 10, width: 66, length: 190 };
  const most = Math.max(1, ...positions.map(({ bites }) => bites));
  const sheet: Sheet = { width, narrow, hull, most };
  const port = placeSide(sorted(positions, 'port'), 'port', sheet);
  const starboard = placeSide(sorted(positions, 'starboard'), 'starboard', sheet);
  const centre = positions.filter(({ side }) => side === 'centre' || side === null);
  const stern = hull.top + hull.length;
  const under = Math.max(stern + SLOT_GAP, narrow ? Math.max(port.bottom, starboard.bottom) : 0);
  const below = placeCentre(inOrder(centre), under, sheet);
  return {
    width,
    height: Math.ceil(Math.max(stern, port.bottom, starboard.bottom, below.bottom) + 4),
    hull,
    positions: [...port.placed, ...below.placed, ...starboard.placed],
  };
}

interface Sheet {
  readonly width: number;
  readonly narrow: boolean;
  readonly hull: Hull;
  readonly most: number;
}

function sorted(positions: readonly BoatPosition[], side: Side): BoatPosition[] {
  return inOrder(positions.filter((position) => position.side === side));
}

function inOrder(positions: readonly BoatPosition[]): BoatPosition[] {
  return [...positions].sort((a, b) => rank(a) - rank(b));
}

function rank({ reach }: BoatPosition): number {
  return reach === null ? Number.MAX_VALUE : OUT[reach];
}

/** The area of a circle, not its radius, stands for the bites. */
function radiusOf({ bites }: BoatPosition, most: number): number {
  return Math.max(SMALLEST, LARGEST * Math.sqrt(bites / most));
}

function placeSide(positions: readonly BoatPosition[], side: 'port' | 'starboard', sheet: Sheet) {
  const { hull, narrow, width } = sheet;
  const outwards = side === 'port' ? -1 : 1;
  const laneRoom = (width - hull.width) / 2 - (narrow ? GAP : 26);
  const step = narrow || positions.length < 2 ? 0 : 70 / (positions.length - 1);
  let top = hull.top + (narrow ? 0 : 10);
  const placed = positions.map((position, index) => {
    const radius = radiusOf(position, sheet.most);
    const out = narrow
      ? hull.width / 2 + GAP + laneRoom / 2
      : hull.width / 2 + 30 + LARGEST + step * index;
    const x = hull.centre + outwards * out;
    const slot = narrow
      ? wordsUnder(position, { x, top: top + 2 * radius, room: laneRoom })
      : wordsBeside(position, {
          x: x + outwards * (LARGEST + 8),
          top,
          room: width / 2 - out - LARGEST - 10,
          anchor: side === 'port' ? 'end' : 'start',
        });
    const y = narrow ? top + radius : top + slot.height / 2;
    const start = hull.top + hull.length * (0.52 + (0.36 * (index + 0.5)) / positions.length);
    const from = { x: hull.centre + (outwards * hull.width * 0.96) / 2, y: start };
    const to = { x: x - outwards * radius, y };
    const within = GAP - 1 - (GAP - 3) * ((index + 0.5) / positions.length);
    const line = narrow
      ? cornerLine(from, to, hull.centre + outwards * (hull.width / 2 + within))
      : bentLine(from, to);
    top += (narrow ? 2 * radius : 0) + slot.height + SLOT_GAP;
    return { position, x, y, radius, words: slot.words, line };
  });
  return { placed, bottom: top - (positions.length > 0 ? SLOT_GAP : 0) };
}

/** On wide sheets: out from the gunwale, bending to reach the bait level. */
function bentLine(from: Point, to: Point): string {
  const reach = to.x - from.x;
  const [a, b] = [
    { x: from.x + reach * 0.45, y: from.y },
    { x: from.x + reach * 0.5, y: to.y },
  ];
  return `M${point(from)}C${point(a)} ${point(b)} ${point(to)}`;
}

/** On narrow sheets: along the gap between the hull and the words, then out level with the bait. */
function cornerLine(from: Point, to: Point, gap: number): string {
  const outwards = Math.sign(to.x - from.x);
  const along = Math.sign(to.y - from.y);
  const bend = Math.min(12, Math.abs(to.y - from.y) / 2);
  return (
    `M${point(from)}Q${point({ x: gap, y: from.y })} ${point({ x: gap, y: from.y + along * bend })}` +
    `V${round(to.y - along * bend)}Q${point({ x: gap, y: to.y })} ` +
    `${point({ x: gap + outwards * bend, y: to.y })}H${round(to.x)}`
  );
}

function placeCentre(positions: readonly BoatPosition[], start: number, sheet: Sheet) {
  const { hull, narrow, width } = sheet;
  const room = narrow ? width - 20 : 116;
  const stern = hull.top + hull.length;
  let top = start;
  const placed = positions.map((position) => {
    const radius = radiusOf(position, sheet.most);
    const slot = wordsUnder(position, { x: hull.centre, top: top + 2 * radius, room });
    const y = top + radius;
    const line = `M${point({ x: hull.centre, y: stern })}V${round(y - radius)}`;
    top += 2 * radius + slot.height + SLOT_GAP;
    const first = position === positions[0];
    return {
      position,
      x: hull.centre,
      y,
      radius,
      words: slot.words,
      line: first && position.side === 'centre' ? line : null,
    };
  });
  return { placed, bottom: top - (positions.length > 0 ? SLOT_GAP : 0) };
}

interface WordsPlace {
  readonly x: number;
  readonly top: number;
  readonly room: number;
}

function wordsUnder(position: BoatPosition, { x, top, room }: WordsPlace) {
  return setWords(position, { x, top: top + 4, room, anchor: 'middle' });
}

function wordsBeside(
  position: BoatPosition,
  place: WordsPlace & { readonly anchor: 'start' | 'end' },
) {
  const { words, height } = setWords(position, place);
  const least = 2 * LARGEST;
  const down = Math.max(0, (least - height) / 2);
  return {
    words: words.map((line) => ({ ...line, y: line.y + down })),
    height: Math.max(height, least),
  };
}

function setWords(
  position: BoatPosition,
  { x, top, room, anchor }: WordsPlace & { readonly anchor: PlacedLine['anchor'] },
) {
  const name = wrapText(position.name, room, { ...NAME, most: 2 });
  const figure = wrapText(position.figure, room, { ...TEXT, most: 2 });
  const lines = [
    ...name.map((text) => ({ text, kind: 'name' as const })),
    ...figure.map((text) => ({ text, kind: 'figure' as const })),
    { text: fitText(position.n, room, TEXT), kind: 'n' as const },
  ];
  const words = lines.map((line, i) => ({
    ...line,
    text: printable(line.text),
    x,
    y: top + LINE * (i + 0.75),
    anchor,
  }));
  return { words, height: LINE * lines.length };
}

interface Point {
  readonly x: number;
  readonly y: number;
}

function point({ x, y }: Point): string {
  return `${round(x)},${round(y)}`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
