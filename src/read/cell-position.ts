import { nearestWord } from '../base/nearest.ts';
import { placeFromName, positionAt } from '../settings/position-words.ts';
import type { Position, Reach, Side } from '../settings/settings.ts';
import { type CellReader, plain, repaired, warned } from './cell.ts';
import { choiceKey } from './cell-choice.ts';
import { cleanText } from './clean-text.ts';
import { positionRespelt, positionUnknown } from './messages-words.ts';

const SIDE_LETTERS: Readonly<Record<string, Side>> = { p: 'port', s: 'starboard', c: 'centre' };
const REACH_LETTERS: Readonly<Record<string, Reach>> = {
  s: 'short',
  m: 'middle',
  l: 'long',
  f: 'flat',
};

/**
 * Makes the reader of a position. Taken are the spread's own names in any case and spacing, their
 * words in any order (`Long Port`, `stbd flat line`) and the two letters of side and reach (`PL`,
 * `SF`). Another word stays as it is, in lower case, with a warning: it is a position without a
 * known side and reach.
 */
export function positionReader(positions: readonly Position[]): CellReader<string> {
  const exact = new Set(positions.map((position) => position.name));
  const byKey = new Map(positions.map((position) => [joinedKey(position.name), position.name]));
  return (text) => {
    if (exact.has(text)) return plain(text);
    const bare = cleanText(text);
    const known =
      byKey.get(joinedKey(bare)) ?? byWords(bare, positions) ?? byLetters(bare, positions);
    if (known !== null) return repaired(known, positionRespelt(text, known));
    const near = nearestWord(bare, [...exact]);
    return warned(choiceKey(bare).replace(/ /g, '-'), positionUnknown(text, near));
  };
}

/** A name without case, spaces and hyphens: `PortLong` is `port-long`. */
function joinedKey(name: string): string {
  return choiceKey(name).replace(/ /g, '');
}

/** Words that a crew adds and that name no other place. */
const FILLERS = /\b(?:line|rod|side|rigger|bait|flat ?line)s?\b/gi;

function byWords(text: string, positions: readonly Position[]): string | null {
  const flat = text.replace(/flat[ -]?line/gi, 'flat');
  const rest = flat
    .replace(FILLERS, ' ')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
  const place = placeFromName(rest.join(' '));
  const open = rest.filter((word) => {
    const alone = placeFromName(word);
    return alone.side === null && alone.reach === null;
  });
  if (open.length === 0) return positionAt(positions, place)?.name ?? null;
  // `P long`, `short S`: one word in full tells what the single letter beside it can only be.
  const letter = open.length === 1 && rest.length === 2 ? (open[0]?.toLowerCase() ?? '') : '';
  const whole =
    place.side === null
      ? { side: SIDE_LETTERS[letter] ?? null, reach: place.reach }
      : { side: place.side, reach: REACH_LETTERS[letter] ?? null };
  return positionAt(positions, whole)?.name ?? null;
}

function byLetters(text: string, positions: readonly Position[]): string | null {
  const [first = '', second = '', more] = text.toLowerCase().replace(/[^a-z]/g, '');
  if (more !== undefined || text.length > 4) return null;
  const found = new Set<string>();
  for (const [sideLetter, reachLetter] of [
    [first, second],
    [second, first],
  ]) {
    const side = SIDE_LETTERS[sideLetter ?? ''] ?? null;
    const reach = REACH_LETTERS[reachLetter ?? ''] ?? null;
    const position = positionAt(positions, { side, reach });
    if (position !== null) found.add(position.name);
  }
  const [only] = found;
  return found.size === 1 ? (only ?? null) : null;
}
