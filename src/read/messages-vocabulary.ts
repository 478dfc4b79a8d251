import { shownText } from './clean-text.ts';
import type { Message } from './messages-cells.ts';

/** A spelling that the settings list under a word. */
export function wordRespelt(column: string, text: string, word: string): Message {
  return {
    code: `${codeOf(column)}-respelt`,
    text: `${column} "${shownText(text)}" was read as ${word}.`,
    remedy: 'Nothing to do; the settings list this spelling.',
  };
}

/** The same word in other case or spacing. */
export function wordFolded(column: string, text: string, word: string): Message {
  return {
    code: `${codeOf(column)}-folded`,
    text: `${column} "${shownText(text)}" differs from "${shownText(word)}" in case or spacing only, and was read as that.`,
    remedy: 'Nothing to do; one spelling throughout needs no repair.',
  };
}

/** A rare word one or two letters from a common one. */
export function wordNearAnother(column: string, text: string, near: string): Message {
  return {
    code: `${codeOf(column)}-near-spelling`,
    text: `${column} "${shownText(text)}" is near "${shownText(near)}": is it the same ${thing(column)}? It was kept apart.`,
    remedy: nearRemedy(column, shownText(text), shownText(near)),
  };
}

/** A word that the vocabulary of the settings does not list. */
export function wordNotListed(column: string, text: string): Message {
  return {
    code: `${codeOf(column)}-not-listed`,
    text: `${column} "${shownText(text)}" is not listed in season.yaml.`,
    remedy: `Add it under ${GROUPS[column] ?? column} in season.yaml, as a word of its own or as a spelling.`,
  };
}

/** `line type` for `line_type`. */
function thing(column: string): string {
  return column.replaceAll('_', ' ');
}

function codeOf(column: string): string {
  return column.replaceAll('_', '-');
}

const GROUPS: Readonly<Record<string, string>> = {
  bait: 'baits',
  species: 'species',
  line_type: 'line_types',
};

function nearRemedy(column: string, word: string, near: string): string {
  const group = GROUPS[column];
  return group === undefined
    ? `If both are the same, write "${near}" in both cells.`
    : `If both are the same, list "${word}" as a spelling of "${near}" under ${group} in season.yaml.`;
}
