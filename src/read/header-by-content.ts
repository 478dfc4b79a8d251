import { placeFromName } from '../settings/position-words.ts';
import type { ColumnSpec } from './column-spec.ts';
import type { HeaderLexicon, HeaderMeaning } from './header-meaning.ts';
import { headerWords } from './header-words.ts';

/** Headers that name different things on different boats; the cells below them tell which. */
const OPEN_HEADERS: ReadonlySet<string> = new Set(['line', 'lines', 'rig', 'baits']);

/** Cells looked at below such a header. */
const MOST_CELLS = 50;

interface Column {
  readonly header: string;
  readonly meaning: HeaderMeaning | null;
}

/**
 * Gives a meaning to headers such as `Line` where the filled cells below agree on one: places in
 * the spread are positions, materials (but for a slip) are line types, figures with a pound sign are line classes;
 * `Baits` are a count or the kinds of bait.
 * A column that is already there is not given a second time.
 */
export function meaningByContent(
  columns: readonly Column[],
  below: readonly (readonly string[])[],
  lexicon: HeaderLexicon,
): readonly Column[] {
  const taken = new Set(columns.map((column) => column.meaning?.spec.name));
  return columns.map((column, index) => {
    if (column.meaning !== null || !OPEN_HEADERS.has(headerWords(column.header))) return column;
    const cells = below
      .map((row) => (row[index] ?? '').trim())
      .filter((text) => text !== '')
      .slice(0, MOST_CELLS);
    const spec = cells.length === 0 ? undefined : specOf(cells, column.header, lexicon);
    if (spec === undefined || taken.has(spec.name)) return column;
    taken.add(spec.name);
    return { ...column, meaning: { spec, unit: spec.unit ?? null, unitAssumed: false } };
  });
}

function specOf(
  cells: readonly string[],
  header: string,
  lexicon: HeaderLexicon,
): ColumnSpec | undefined {
  if (headerWords(header) === 'baits') {
    const isCount = cells.every((text) => /^\d+$/.test(text));
    return lexicon.sure.get(isCount ? 'baits_used' : 'bait');
  }
  if (cells.every(isPlace)) return lexicon.sure.get('position');
  if (mostly(cells, isMaterial)) return lexicon.sure.get('line_type');
  if (cells.every(isStrength)) return lexicon.sure.get('line_class_lb');
  return undefined;
}

/** Three in four at least: a slip among the materials leaves the column what it is. */
function mostly(cells: readonly string[], is: (text: string) => boolean): boolean {
  return cells.filter(is).length * 4 >= cells.length * 3;
}

function isPlace(text: string): boolean {
  const { side, reach } = placeFromName(text);
  return side !== null && reach !== null;
}

/** `mono`, `hollow braid`, `50 lb mono`, `braid 8x`: one word of it names a material. */
function isMaterial(text: string): boolean {
  return (
    text.length < 40 &&
    /(?:^|[^a-z])(?:mono(?:filament)?|nylon|braid(?:ed)?|pe|fluoro(?:carbon)?|dacron|copolymer|co-polymer|wire)(?![a-z])/i.test(
      text,
    )
  );
}

function isStrength(text: string): boolean {
  return /^\d+\s*(?:lbs?|#)$/i.test(text);
}
