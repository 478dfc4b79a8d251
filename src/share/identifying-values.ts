import type { TidySeason } from '../tidy/tidy-season.ts';
import { coordinatesIn } from './scan-coordinates.ts';
import { foldedWords } from './scan-fold.ts';
import type { RawCell } from './scan-raw-cells.ts';

/** A name, an id or a word of a note that must not leave. */
export interface IdentifyingText {
  readonly text: string;
  /** Where the log has it, e.g. `angler in bites.csv`. */
  readonly from: string;
  /**
   * A whole name or id; a whole cell of a column nobody knows; one part of either; a word out of
   * running text.
   */
  readonly kind: 'name' | 'cell' | 'part' | 'word';
}

/** Everything in a log that says who, when exactly or where exactly. */
export interface IdentifyingValues {
  readonly texts: readonly IdentifyingText[];
  /** Exact positions, decimal degrees. */
  readonly positions: readonly { readonly lat: number; readonly lon: number }[];
  /** ISO dates. */
  readonly dates: ReadonlySet<string>;
  /** Clock times, minutes after midnight. */
  readonly minutes: ReadonlySet<number>;
  /** Single letters and short numbers, which no scan can tell from a count: how many. */
  readonly tooShort: number;
}

/** Columns whose cells name somebody or something of the boat's own. */
const NAME_COLUMNS = new Set(['trip_id', 'bite_id', 'vessel', 'area', 'rod', 'angler', 'source']);
/** Below this many digits a number is as likely a count. */
const LEAST_DIGITS = 6;
const LEAST_PART = 3;

/** Gathers what identifies from the settings, the typed rows, and every cell as it stood. */
export async function identifyingValues(
  season: TidySeason,
  cells: AsyncIterable<RawCell>,
): Promise<IdentifyingValues> {
  const { log } = season;
  const found = new TextCollection();
  const positions = season.trips.flatMap(({ lat, lon }) =>
    lat === null || lon === null ? [] : [{ lat, lon }],
  );
  const { vessel } = log.settings;
  found.addWhole({ text: log.name, from: 'the name of the log', kind: 'name' });
  if (vessel !== null)
    found.addWhole({ text: vessel, from: 'vessel in the settings', kind: 'name' });
  const seen = new Set<string>();
  for await (const { file, header, column, text } of cells) {
    // Names and notes stand in a log again and again; once is enough.
    const key = `${column ?? header}\n${text}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const from = header === '' ? `a line of ${file}` : `${header} in ${file}`;
    const isWhole = column === null ? header !== '' : NAME_COLUMNS.has(column);
    // Remarks get written into any cell; what has no letter there is a number, a day or a time.
    if (isWhole) found.addWhole({ text, from, kind: column === null ? 'cell' : 'name' });
    else if (column === 'notes' || /\p{L}/u.test(text)) found.addWords(text, from);
    if (isWhole || column === 'notes') positions.push(...pairsIn(text));
  }
  return {
    texts: [...found.texts.values()],
    positions,
    dates: datesOf(season),
    minutes: minutesOf(season),
    tooShort: found.tooShort.size,
  };
}

/** Texts without repetition; a whole name outweighs a part, a part a word of a note. */
class TextCollection {
  readonly texts = new Map<string, IdentifyingText>();
  readonly tooShort = new Set<string>();

  addWhole({ text, from, kind }: IdentifyingText): void {
    const words = foldedWords(text);
    this.#add({ text: text.trim(), from, kind }, words);
    if (words.length < 2) return;
    for (const part of words.filter(isTelling))
      this.#add({ text: part, from, kind: 'part' }, [part]);
  }

  addWords(text: string, from: string): void {
    for (const word of foldedWords(text).filter(isTelling)) {
      this.#add({ text: word, from, kind: 'word' }, [word]);
    }
  }

  #add(value: IdentifyingText, words: readonly string[]): void {
    const whole = words.join('');
    if (words.length > 0 && isTooShort(whole)) {
      this.tooShort.add(whole);
      return;
    }
    // Text without letters or digits, such as a drawing of a fish, is kept as it stands.
    const key = words.length === 0 ? value.text : words.join(' ');
    const known = this.texts.get(key);
    if (known === undefined || ORDER[value.kind] < ORDER[known.kind]) this.texts.set(key, value);
  }
}

function isTooShort(whole: string): boolean {
  const length = [...whole].length;
  return /^\p{N}+$/u.test(whole) ? length < LEAST_DIGITS : length < 2;
}

const ORDER = { name: 0, cell: 1, part: 2, word: 3 } as const;

/** A part of a name or a word of a note that could point to somebody by itself. */
function isTelling(word: string): boolean {
  const length = [...word].length;
  return /^\p{N}+$/u.test(word) ? length >= LEAST_DIGITS : length >= LEAST_PART;
}

/** Positions written in running text: two coordinates one after the other. */
function pairsIn(text: string): { lat: number; lon: number }[] {
  // Digits alone are as likely a number of another kind.
  const found = coordinatesIn(text).filter((one) => !/^\d+$/.test(one.text));
  return found.flatMap(({ degrees: lat }, at) => {
    const lon = found[at + 1]?.degrees;
    return at % 2 === 0 && lon !== undefined ? [{ lat, lon }] : [];
  });
}

function datesOf({ log }: TidySeason): ReadonlySet<string> {
  return new Set(
    [log.trips, log.spools ?? [], log.baitBuys ?? []].flatMap((rows) =>
      rows.map((row) => row.date),
    ),
  );
}

function minutesOf({ log }: TidySeason): ReadonlySet<number> {
  const times = [
    ...log.trips.flatMap((trip) => [trip.lines_in, trip.lines_out]),
    ...(log.soaks ?? []).flatMap((soak) => [soak.time_in, soak.time_out]),
    ...log.bites.map((bite) => bite.time),
  ];
  return new Set(times.filter((time) => time !== null));
}
