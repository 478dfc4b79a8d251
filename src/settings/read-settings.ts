import { readFile, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import * as v from 'valibot';
import { type Document, isNode, LineCounter, parseDocument, visit } from 'yaml';
import { UserError } from '../base/problem.ts';
import { fillSettings } from './fill-settings.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings.ts';
import {
  issueMessage,
  placeAt,
  placeOf,
  type SettingsSource,
  settingsMessage,
} from './settings-message.ts';
import { SettingsSchema } from './settings-schema.ts';

/** A settings file is a page or two; a larger one is something else. */
const LARGEST_BYTES = 1_000_000;
/** Keys that JavaScript objects keep for themselves. */
const RESERVED_KEYS = new Set(['__proto__', 'constructor', 'prototype']);

/**
 * Reads `season.yaml` (or `season.yml`) of a log folder, or the file named in its place.
 * Without either file the defaults hold. Throws a `UserError` (exit code 2) with file, line, column,
 * the offending text and the way on, for a file that is no YAML, an unknown key or a value out of
 * its range.
 */
export async function readSettings(folder: string, settingsFile?: string): Promise<Settings> {
  if (settingsFile !== undefined) {
    const text = await textOf(settingsFile);
    if (text === null) throw new UserError(`There is no settings file ${settingsFile}.`, 2);
    return parseSettings(text, basename(settingsFile));
  }
  for (const name of ['season.yaml', 'season.yml']) {
    const text = await textOf(join(folder, name));
    if (text !== null) return parseSettings(text, name);
  }
  return DEFAULT_SETTINGS;
}

/** Reads settings from text; `file` is the name that messages use. See {@link readSettings}. */
export function parseSettings(text: string, file: string): Settings {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const source: SettingsSource = { file, document, lines };
  refuseBadYaml(source, document);
  const raw: unknown = toPlain(source, document);
  if (raw === null || raw === undefined) return DEFAULT_SETTINGS;
  if (Array.isArray(raw)) {
    const complaint = 'the file is a list; write each setting as "key: value", without a dash.';
    throw new UserError(settingsMessage(source, [], complaint), 2);
  }
  const checked = v.safeParse(SettingsSchema, raw);
  if (!checked.success) throw new UserError(issueMessage(source, checked.issues[0]), 2);
  return fillSettings(checked.output, {
    refuse: (path, complaint) => {
      throw new UserError(settingsMessage(source, path, complaint), 2);
    },
    placeOf: (path) => placeOf(source, path),
  });
}

async function textOf(path: string): Promise<string | null> {
  const found = await stat(path).catch(() => null);
  if (found === null) return null;
  if (!found.isFile()) throw new UserError(`${path} is not a file that can be read.`, 2);
  if (found.size > LARGEST_BYTES) {
    throw new UserError(`${path} is too large for a settings file (over 1 MB).`, 2);
  }
  const bytes = await readFile(path).catch((error: Error) => {
    throw new UserError(`${path} cannot be read: ${error.message}.`, 2);
  });
  return decoded(bytes);
}

/** UTF-8, or UTF-16 by its byte order mark; bytes that are neither are Windows-1252. */
function decoded(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function refuseBadYaml(source: SettingsSource, document: Document): void {
  const [error] = document.errors;
  if (error !== undefined) {
    const said = error.message.split('\n')[0] ?? 'it cannot be read';
    const isParted = error.code === 'MULTIPLE_DOCS';
    const what = isParted ? 'a line "---" parts it into several documents' : said;
    throw new UserError(
      `${placeAt(source, error.pos[0])}: the file is not sound YAML (${what.replace(/[.:]$/, '')}). Indent with spaces, and write each setting as "key: value".`,
      2,
    );
  }
  visit(document, {
    Pair(_, pair) {
      const key = String(pair.key);
      if (!RESERVED_KEYS.has(key)) return;
      const place = placeAt(source, isNode(pair.key) ? (pair.key.range?.[0] ?? null) : null);
      throw new UserError(`${place}: "${key}" cannot be used as a name; choose another.`, 2);
    },
  });
}

/** Plain values of the document; a file of aliases that would swell without end is refused. */
function toPlain(source: SettingsSource, document: Document): unknown {
  try {
    return document.toJS({ maxAliasCount: 100 });
  } catch (error) {
    const what = error instanceof Error ? error.message : String(error);
    throw new UserError(`${source.file} cannot be read: ${what}.`, 2);
  }
}
