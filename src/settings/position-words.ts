import type { Position, Reach, Side } from './settings.ts';

const SIDE_WORDS: ReadonlyMap<string, Side> = new Map([
  ['port', 'port'],
  ['prt', 'port'],
  ['starboard', 'starboard'],
  ['stbd', 'starboard'],
  ['stb', 'starboard'],
  ['starb', 'starboard'],
  ['centre', 'centre'],
  ['center', 'centre'],
]);

const REACH_WORDS: ReadonlyMap<string, Reach> = new Map([
  ['short', 'short'],
  ['middle', 'middle'],
  ['mid', 'middle'],
  ['long', 'long'],
  ['flat', 'flat'],
  ['pitch', 'pitch'],
]);

/** The side and the reach that the words of a position's name give; null where they give none. */
export interface PlaceInSpread {
  readonly side: Side | null;
  readonly reach: Reach | null;
}

/**
 * Reads side and reach out of the words of a name, in any order and case: `Long Port`,
 * `starboard-short`, `flat line stbd`. A pitch bait without a side is thrown from the centre.
 * Words that say neither are passed over; two sides or two reaches in one name give null.
 */
export function placeFromName(name: string): PlaceInSpread {
  const words = name.toLowerCase().split(/[^\p{L}\p{N}]+/u);
  const side = onlyOne(words, SIDE_WORDS);
  const reach = onlyOne(words, REACH_WORDS);
  return { side: side ?? (reach === 'pitch' ? 'centre' : null), reach };
}

/** Finds the one position of the spread with this side and reach; null where none or several fit. */
export function positionAt(positions: readonly Position[], place: PlaceInSpread): Position | null {
  if (place.side === null || place.reach === null) return null;
  const found = positions.filter((p) => p.side === place.side && p.reach === place.reach);
  return found.length === 1 ? (found[0] ?? null) : null;
}

function onlyOne<T>(words: readonly string[], meanings: ReadonlyMap<string, T>): T | null {
  const found = new Set<T>();
  for (const word of words) {
    const meaning = meanings.get(word);
    if (meaning !== undefined) found.add(meaning);
  }
  const [first] = found;
  return found.size === 1 && first !== undefined ? first : null;
}
