/**
 * How wide a text will be, without a screen to ask. Widths are in hundredths of the font size,
 * rounded up by class, measured on DejaVu Sans: wider than the system fonts of phones and laptops,
 * so that what fits by this table fits everywhere. Same answer on every machine.
 */
const CLASSES: readonly (readonly [string, number])[] = [
  ["'ijlIJ", 30],
  [' \u00a0,./:;|\\', 34],
  ['\u202f', 20],
  ['!()-[]ftr', 41],
  ['"*_`?csz–°', 55],
  ['aekovxyFLPTY', 62],
  ['0123456789$bdghnpquES{}', 64],
  ['ABCKRVXZ', 70],
  ['DGHNOQU&', 79],
  ['#+<=>^~w−×', 84],
  ['mM%', 98],
  ['@W…—', 100],
];

const WIDTH_OF: ReadonlyMap<string, number> = new Map(
  CLASSES.flatMap(([letters, width]) => [...letters].map((letter) => [letter, width] as const)),
);

const WIDE = /[\p{Extended_Pictographic}\p{sc=Han}\p{sc=Hiragana}\p{sc=Katakana}\p{sc=Hangul}]/u;
const BOLD_FACTOR = 1.12;
/** Looking further than this into a name is of no use: nothing so long fits anywhere. */
const LONGEST_LOOKED_AT = 400;

/** A font size in pixels, and whether the text is bold. */
export interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
}

/** Width in pixels, a little on the wide side; 0 for an empty text. */
export function textWidth(text: string, style: TextStyle): number {
  const factor = (style.size / 100) * (style.bold === true ? BOLD_FACTOR : 1);
  let total = 0;
  for (const letter of text) total += letterWidth(letter);
  return total * factor;
}

/** The widest of several texts, in pixels; 0 for none. */
export function widestText(texts: readonly string[], style: TextStyle): number {
  return texts.reduce((widest, text) => Math.max(widest, textWidth(text, style)), 0);
}

/** The text, cut with an ellipsis where it is wider than the room for it. */
export function fitText(text: string, room: number, style: TextStyle): string {
  const start = [...text.slice(0, LONGEST_LOOKED_AT)];
  if (text.length <= LONGEST_LOOKED_AT && textWidth(text, style) <= room) return text;
  while (start.length > 0 && textWidth(`${start.join('')}…`, style) > room) start.pop();
  return `${start.join('').trimEnd()}…`;
}

/**
 * The text broken into lines that fit, at spaces, after hyphens, and within a word too long for a
 * line; what is left when the lines run out is cut with an ellipsis.
 *
 * @returns at least one line, at most `most`.
 */
export function wrapText(
  text: string,
  room: number,
  style: TextStyle & { readonly most: number },
): string[] {
  const pieces = text.slice(0, LONGEST_LOOKED_AT).split(/(?<=[\s-])/u);
  const lines: string[] = [];
  let line = '';
  for (const piece of pieces.flatMap((word) => breakWord(word, room, style))) {
    if (line !== '' && textWidth((line + piece).trimEnd(), style) > room) {
      lines.push(line);
      line = '';
    }
    line += piece;
  }
  lines.push(text.length > LONGEST_LOOKED_AT ? `${line}…` : line);
  const kept = lines.slice(0, style.most - 1);
  const rest = lines.slice(style.most - 1).join('');
  return [...kept, ...(rest === '' ? [] : [rest])].map((piece) =>
    fitText(piece.trim(), room, style),
  );
}

/** A word in pieces that each fit a line: itself, as a rule. */
function breakWord(word: string, room: number, style: TextStyle): string[] {
  if (textWidth(word.trimEnd(), style) <= room) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && textWidth(piece + letter, style) > room) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
}

function letterWidth(letter: string): number {
  const known = WIDTH_OF.get(letter);
  if (known !== undefined) return known;
  if (/^[\p{M}\p{Cf}]$/u.test(letter)) return 0;
  if (WIDE.test(letter)) return 105;
  const [base = letter] = letter.normalize('NFD');
  return WIDTH_OF.get(base) ?? 87;
}
