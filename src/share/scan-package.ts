import { monthFromName } from '../read/month-names.ts';
import type { IdentifyingText, IdentifyingValues } from './identifying-values.ts';
import { datesIn, timesIn } from './scan-clock.ts';
import { foldedWords } from './scan-fold.ts';
import { positionsIn } from './scan-positions.ts';
import { readersViews } from './scan-views.ts';
import { TextSearch } from './scan-words.ts';
import type { SharedFile } from './table-schema.ts';

/** Something of the log that was about to leave. */
export interface ScanHit {
  readonly file: string;
  /** null: in the file's name, or not of one line. */
  readonly line: number | null;
  /** As it stands in the package. */
  readonly found: string;
  /** What of the log it is: `a part of angler in bites.csv`, `a position`. */
  readonly what: string;
  /** Whether the owner may clear it as a word that points to nobody. */
  readonly isWord: boolean;
}

/** What a scan found, and what it could not look for. */
export interface ScanResult {
  readonly hits: readonly ScanHit[];
  /** Names of the log that are words of every package too. */
  readonly ownWords: readonly IdentifyingText[];
  /** Single letters and short numbers of the log, which cannot be told from counts: how many. */
  readonly tooShort: number;
}

/** What is no finding, though it looks like one. */
export interface ScanOptions {
  /** A text that holds nothing of any log: the words of every package. */
  readonly template: SharedFile;
  /** Codes that rows may hold; other than as a name they point to nobody. */
  readonly codes: readonly string[];
  /** Periods that rows may hold; a trip numbered `2025-03` cannot be told from the month. */
  readonly periods: readonly string[];
  /** Words the owner has cleared. */
  readonly allowed: readonly string[];
}

/**
 * Holds every byte that is about to leave, names of files included, against every identifying value
 * of the log: as it stands and with the escapes of HTML, JSON and addresses undone.
 */
export function scanPackage(
  files: readonly SharedFile[],
  values: IdentifyingValues,
  { template, codes, periods, allowed }: ScanOptions,
): ScanResult {
  const search = new TextSearch(values.texts);
  const own = new Set(
    textsOf([template]).flatMap(({ text }) => search.meet(text).map((met) => met.value)),
  );
  const cleared = new Set(allowed.map(wordKey));
  const codeKeys = new Set(codes.map(wordKey));
  const periodKeys = new Set(periods.map(wordKey));
  for (const value of values.texts) if (periodKeys.has(wordKey(value.text))) own.add(value);
  const isCleared = (value: IdentifyingText) =>
    own.has(value) ||
    cleared.has(wordKey(value.text)) ||
    (value.kind !== 'name' && codeKeys.has(wordKey(value.text)));
  const known = new Set(exactHits([template], values).map((hit) => hit.found));
  const words = textsOf(files).flatMap(({ file, text, isName }) =>
    search
      .meet(text)
      .filter(({ value }) => !isCleared(value))
      .map(({ value, line }): ScanHit => {
        const place = { file, line: isName ? null : line };
        return { ...place, found: value.text, what: sourceOf(value), isWord: true };
      }),
  );
  const exact = exactHits(files, values).filter((hit) => !known.has(hit.found));
  return {
    hits: withoutRepetition([...words, ...exact]),
    ownWords: [...own].filter((value) => value.kind === 'name'),
    tooShort: values.tooShort,
  };
}

/** Positions, dates and clock times of the log in files. */
function exactHits(files: readonly SharedFile[], values: IdentifyingValues): ScanHit[] {
  return textsOf(files).flatMap(({ file, text }) => {
    const hit = (what: string) => (found: string) => {
      return { file, line: null, found, what, isWord: false };
    };
    return [
      ...positionsIn(text, values, !file.endsWith('.csv')).map(hit('a position')),
      ...datesIn(text, values).map(hit('a date')),
      ...timesIn(text, values).map(hit('a clock time')),
    ];
  });
}

/** Every view of every file, and its name. */
function textsOf(files: readonly SharedFile[]) {
  return files.flatMap(({ name, text }) => [
    { file: name, text: name, isName: true },
    ...readersViews(text).map((view) => ({ file: name, text: view, isName: false })),
  ]);
}

function sourceOf({ from, kind, text }: IdentifyingText): string {
  const month = monthFromName(text) === null ? '' : ' (also the name of a month)';
  const which = { name: '', cell: '', part: 'a part of ', word: 'a word of ' }[kind];
  return `${which}${from}${month}`;
}

function wordKey(text: string): string {
  return foldedWords(text).join('');
}

function withoutRepetition(hits: readonly ScanHit[]): ScanHit[] {
  return [...new Map(hits.map((hit) => [`${hit.file}\n${hit.found}\n${hit.what}`, hit])).values()];
}
