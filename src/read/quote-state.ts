/** What the quotes of one physical line do. */
export interface QuoteState {
  /** A quoted cell is still open at the end of the line. */
  readonly open: boolean;
  /** Every quote stands where RFC 4180 lets it stand. */
  readonly regular: boolean;
  /** Where the quote stands that is still open; null where none is, or it opened on an earlier line. */
  readonly openAt: number | null;
}

const SOUND: QuoteState = { open: false, regular: true, openAt: null };
const IRREGULAR: QuoteState = { open: false, regular: false, openAt: null };

/**
 * Follows the quotes along a physical line. `inside` says that the line begins within a quoted
 * cell. By RFC 4180 a quoted cell begins right after a delimiter and ends right before one, and a
 * quote inside it is doubled; anything else is irregular, and reading stops at the first such place.
 */
export function quoteState(line: string, delimiter: string, inside: boolean): QuoteState {
  if (!inside && !line.includes('"')) return SOUND;
  let at = 0;
  let quoted = inside;
  let openAt: number | null = null;
  for (;;) {
    if (quoted) {
      const close = closingQuote(line, at);
      if (close === -1) return { open: true, regular: true, openAt };
      at = close + 1;
      if (at === line.length) return SOUND;
      if (!line.startsWith(delimiter, at)) return IRREGULAR;
      at += delimiter.length;
    }
    quoted = line[at] === '"';
    if (quoted) {
      openAt = at;
      at++;
      continue;
    }
    const quote = line.indexOf('"', at);
    if (quote === -1) return SOUND;
    const next = line.lastIndexOf(delimiter, quote);
    // Between the last delimiter and the quote stands text or a space: the quote is out of place.
    if (next < at || next + delimiter.length !== quote) return IRREGULAR;
    at = quote;
  }
}

/** The place of the quote that closes a cell: the first one that is not doubled; -1 for none. */
export function closingQuote(text: string, from: number): number {
  let at = text.indexOf('"', from);
  while (at !== -1 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at;
}
