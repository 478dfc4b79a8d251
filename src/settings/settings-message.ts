import type { BaseIssue } from 'valibot';
import { type Document, isMap, isNode, isPair, isScalar, type LineCounter } from 'yaml';
import { nearestWord } from '../base/nearest.ts';
import { knownSettingKeys } from './settings-schema.ts';

/** A settings file while it is being checked: its name, its text's tree and its line starts. */
export interface SettingsSource {
  readonly file: string;
  readonly document: Document;
  readonly lines: LineCounter;
}

type Path = readonly unknown[];

/** One sentence for what is wrong at one place of the settings, with the way on. */
export function settingsMessage(source: SettingsSource, path: Path, complaint: string): string {
  return `${placeOf(source, path)}: ${complaint}`;
}

/** Turns the first finding of the schema into a sentence with place, value and way on. */
export function issueMessage(source: SettingsSource, issue: BaseIssue<unknown>): string {
  const path = (issue.path ?? []).map((step) => step.key);
  const key = String(path.at(-1) ?? 'the file');
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    return settingsMessage(source, path, unknownKey(key, knownSettingKeys(path.slice(0, -1))));
  }
  const missing = issue.path?.at(-1)?.origin === 'key';
  const found = missing ? 'is missing' : `is ${shown(issue.input)}`;
  return settingsMessage(source, path, `${pathText(path)} ${found}; it must be ${issue.message}.`);
}

/** Says that a key is not known, and which known key stands nearest. */
function unknownKey(key: string, known: readonly string[]): string {
  const near = nearestWord(key, known);
  const way = near === null ? `Known here: ${known.join(', ')}.` : `Did you mean ${near}?`;
  return `"${shorten(key)}" is no setting. ${way}`;
}

/** `positions[2].name` for a path of keys and indices. */
function pathText(path: Path): string {
  let text = '';
  for (const step of path) {
    text += typeof step === 'number' ? `[${step + 1}]` : `${text === '' ? '' : '.'}${String(step)}`;
  }
  return text === '' ? 'the file' : text;
}

/** Where in the file the node (or, for a missing one, its nearest parent) begins. */
export function placeOf(source: SettingsSource, path: Path): string {
  for (let depth = path.length; depth > 0; depth--) {
    const offset = offsetOf(source.document, path.slice(0, depth));
    if (offset !== null) return placeAt(source, offset);
  }
  return placeAt(source, source.document.contents?.range?.[0] ?? null);
}

/** `season.yaml, line 3, column 5`; the file alone where the reader of YAML gives no place. */
export function placeAt(
  { file, lines }: Pick<SettingsSource, 'file' | 'lines'>,
  offset: number | null,
): string {
  if (offset === null) return file;
  const { line, col } = lines.linePos(offset);
  return `${file}, line ${line}, column ${col}`;
}

function offsetOf(document: Document, path: Path): number | null {
  const parent = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  const last = path.at(-1);
  if (isMap(parent)) {
    const pair = parent.items.find((item) => isPair(item) && keyText(item.key) === String(last));
    const key = pair?.key;
    return isNode(key) ? (key.range?.[0] ?? null) : null;
  }
  const node = document.getIn(path, true);
  return isNode(node) ? (node.range?.[0] ?? null) : null;
}

function keyText(key: unknown): string {
  return String(isScalar(key) ? key.value : key);
}

function shown(value: unknown): string {
  if (value === null || value === undefined) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of settings';
  return `"${shorten(String(value))}"`;
}

function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
