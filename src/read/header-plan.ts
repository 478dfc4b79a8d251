import { nearestWord } from '../base/nearest.ts';
import { UserError } from '../base/problem.ts';
import type { Units } from '../settings/settings.ts';
import type { ColumnSpec } from './column-spec.ts';
import { COLUMNS_OF_FILE } from './columns-of-file.ts';
import type { TableFile } from './find-files.ts';
import { meaningByContent } from './header-by-content.ts';
import {
  exactMeaning,
  type HeaderLexicon,
  type HeaderMeaning,
  headerLexicon,
  headerMeaning,
} from './header-meaning.ts';
import { headerWords } from './header-words.ts';
import { duplicateHeaders, missingColumns, noSuchColumn } from './messages-headers.ts';

/** One column of a file as it stands, with what its header means (null: unknown). */
export interface PlannedColumn {
  readonly header: string;
  readonly meaning: HeaderMeaning | null;
}

/** The header row of a file, understood. */
export interface HeaderPlan {
  readonly file: TableFile;
  /** The file's name on disk, for messages. */
  readonly name: string;
  /** Physical line of the header row. */
  readonly line: number;
  readonly columns: readonly PlannedColumn[];
  /** Where each known column stands. */
  readonly indexOf: ReadonlyMap<string, number>;
}

/** A row tried as the header, with the rows that follow it. */
export interface HeaderRow {
  readonly name: string;
  readonly line: number;
  readonly headers: readonly string[];
  readonly below: readonly (readonly string[])[];
}

/** Cells of a row looked at when it is tried as the header. */
const MOST_CELLS_TRIED = 1000;

/** What the settings say of the headers of one file. */
export interface HeaderSettings {
  /** The reader's own header → column, or → `ignore`. */
  readonly own?: Readonly<Record<string, string>>;
  /** Where in the settings each of these stands, for the message about one that is wrong. */
  readonly places?: Readonly<Record<string, string>>;
  /** Units that a header without one stands for. */
  readonly units?: Units;
}

/** A header that the settings give a meaning, or (null) none. */
interface OwnHeader {
  readonly theirs: string;
  readonly meaning: HeaderMeaning | null;
}

/** The word that takes a header out of the reading, where two mean one column. */
const IGNORE = 'ignore';

/** Understands the headers of one file; made once, as rows are tried as headers while sniffing. */
export class HeaderReader {
  readonly file: TableFile;
  readonly specs: readonly ColumnSpec[];
  readonly #lexicon: HeaderLexicon;
  readonly #own: ReadonlyMap<string, OwnHeader>;

  /** Throws a `UserError` (exit code 2) where the settings map a header to no column. */
  constructor(file: TableFile, settings: HeaderSettings = {}) {
    this.file = file;
    this.specs = COLUMNS_OF_FILE[file];
    this.#lexicon = headerLexicon(this.specs, settings.units);
    this.#own = new Map(
      Object.entries(settings.own ?? {}).map(([theirs, ours]) => [
        headerWords(theirs),
        { theirs, meaning: this.#ownMeaning(theirs, ours, settings.places?.[theirs]) },
      ]),
    );
  }

  /** What a header means: by the reader's own map first, then by the columns' names. */
  meaningOf(header: string): HeaderMeaning | null {
    // The other headers of set-aside.csv belong to the files its rows came from.
    if (this.file === 'set-aside.csv') return exactMeaning(header, this.#lexicon);
    const own = this.#own.get(headerWords(header));
    return own === undefined ? headerMeaning(header, this.#lexicon) : own.meaning;
  }

  /** Whether the settings take a header out of the reading. */
  ignores(header: string): boolean {
    return this.#own.get(headerWords(header))?.meaning === null;
  }

  /** How many columns the cells of a row name. */
  score(cells: readonly string[]): number {
    const found = new Set<string>();
    for (const cell of cells.slice(0, MOST_CELLS_TRIED)) {
      const meaning = cell.length > 80 ? null : this.meaningOf(cell);
      if (meaning !== null) found.add(meaning.spec.name);
    }
    return found.size;
  }

  /** Headers of the reader's own map that a header row does not have. */
  ownHeadersMissing(plan: HeaderPlan): string[] {
    const present = new Set(plan.columns.map((column) => headerWords(column.header)));
    return [...this.#own].filter(([words]) => !present.has(words)).map(([, own]) => own.theirs);
  }

  /**
   * Plans a header row. Throws a `UserError` (exit code 3) for two headers that mean one column and
   * for a required column that is missing.
   */
  plan({ name, line, headers, below }: HeaderRow): HeaderPlan {
    const byName = headers.map((header) => ({ header, meaning: this.meaningOf(header) }));
    const columns = meaningByContent(byName, below, this.#lexicon);
    const indexOf = new Map<string, number>();
    columns.forEach(({ header, meaning }, index) => {
      if (meaning === null) return;
      const column = meaning.spec.name;
      const earlier = indexOf.get(column);
      if (earlier !== undefined) {
        const first = columns[earlier]?.header ?? column;
        throw new UserError(duplicateHeaders({ name, line, column, first, second: header }), 3);
      }
      indexOf.set(column, index);
    });
    const missing = this.specs.filter((spec) => spec.required && !indexOf.has(spec.name));
    if (missing.length > 0) {
      const unknown = columns.filter((column) => column.meaning === null);
      const known = unknown.map((column) => column.header).filter((header) => header !== '');
      throw new UserError(missingColumns({ name, line, missing, headers, unknown: known }), 3);
    }
    return { file: this.file, name, line, columns, indexOf };
  }

  /** The column whose name or synonym stands nearest to an unknown header, or null. */
  nearestColumn(header: string): string | null {
    if (header.length > 60) return null;
    const words = [...this.#lexicon.sure.keys(), ...this.#lexicon.bare.keys()];
    const wanted = headerWords(header);
    // `Cost` stands nearer to unit_cost, which contains it, than to count.
    const within = this.specs.find((spec) => spec.name.split('_').includes(wanted));
    if (within !== undefined) return within.name;
    const near = nearestWord(wanted, words);
    if (near === null) return null;
    return (this.#lexicon.sure.get(near) ?? this.#lexicon.bare.get(near))?.name ?? null;
  }

  #ownMeaning(theirs: string, ours: string, place = 'season.yaml'): HeaderMeaning | null {
    if (ours.toLowerCase() === IGNORE) return null;
    const meaning = headerMeaning(ours, this.#lexicon);
    if (meaning !== null) return { ...meaning, unitAssumed: false };
    const names = this.specs.map((spec) => spec.name);
    throw new UserError(noSuchColumn({ place, file: this.file, theirs, ours, names }), 2);
  }
}
