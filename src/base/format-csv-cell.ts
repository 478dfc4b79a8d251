/**
 * What a spreadsheet may run as a formula or a command when it opens a CSV file: a cell whose first
 * sign, after spaces and apostrophes, is one of these, or that begins with a tab or a line break.
 * Full-width forms are run as well where the spreadsheet folds them.
 * Source: OWASP Foundation, "CSV Injection" (community page, read from memory).
 */
const MAY_RUN = /^['\s]*[=+\-@＝＋－＠]|^'*[\t\r\n]/;

const PLAIN_NUMBER = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?$/i;

/** The text with a leading apostrophe where a spreadsheet would run it; numbers stay as they are. */
export function guardCell(text: string): string {
  return needsGuard(text) ? `'${text}` : text;
}

/** Takes the guard off again: `unguardCell(guardCell(text))` is the text, whatever the text. */
export function unguardCell(text: string): string {
  return text.startsWith("'") && needsGuard(text.slice(1)) ? text.slice(1) : text;
}

function needsGuard(text: string): boolean {
  return MAY_RUN.test(text) && !PLAIN_NUMBER.test(text);
}
