const INVISIBLE = /[\u200B-\u200F\u202A-\u202E\u2060\u2066-\u2069\uFEFF\u00AD]/g;
const NEEDS_CLEANING = /[^\x21-\x7E]|^'|^="/;
/** A spreadsheet keeps `007` and `7/0` as text by writing `="007"`. */
const TEXT_FORMULA = /^="([^"]*)"$/;

/**
 * The text of a cell on one line: invisible marks dropped, control characters, odd spaces and line
 * breaks turned to single spaces, trimmed, accents in composed form.
 */
export function cleanText(raw: string): string {
  if (!NEEDS_CLEANING.test(raw)) return raw;
  return raw
    .replace(TEXT_FORMULA, '$1')
    .replace(INVISIBLE, '')
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .trim()
    .normalize('NFC');
}

/**
 * The text of a cell that holds a number, a date or a clock time: cleaned, compatibility forms
 * folded (full-width digits), and without the apostrophe that forces text in a spreadsheet.
 */
export function cleanValue(raw: string): string {
  const text = cleanText(raw);
  if (/^[\x20-\x7E]*$/.test(text)) return text.startsWith("'") ? text.slice(1).trim() : text;
  return text
    .normalize('NFKC')
    .replace(/[−‒–—]/g, '-')
    .replace(/^['’]/, '')
    .trim();
}

/** Whether a cell holds nothing that can be seen. */
export function isBlank(raw: string): boolean {
  const text = raw.trim();
  return text === '' || (text.length < 20 && cleanText(text) === '');
}

const LONGEST_SHOWN = 120;

/** Text for a message: cut to a line's length, control characters made visible. */
export function shownText(raw: string): string {
  const text = raw.length > LONGEST_SHOWN ? `${raw.slice(0, LONGEST_SHOWN)}…` : raw;
  return text.replace(/[\p{Cc}\u2028\u2029]/gu, (letter) => {
    const code = letter.codePointAt(0) ?? 0;
    return code < 0x20 ? String.fromCodePoint(0x2400 + code) : '\uFFFD';
  });
}
