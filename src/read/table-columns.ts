import type { Settings, SpeciesSetting, Vocabulary } from '../settings/settings.ts';
import type { CellReader } from './cell.ts';
import { type ChoiceWords, choiceReader } from './cell-choice.ts';
import { clockReader } from './cell-clock.ts';
import { dateReader } from './cell-date.ts';
import { readHookSize } from './cell-hook-size.ts';
import { type NumberContext, numberReader } from './cell-number.ts';
import { bearingReader, latLonReader } from './cell-place.ts';
import { positionReader } from './cell-position.ts';
import { readText, readWord, vocabularyReader } from './cell-word.ts';
import type { ColumnSpec } from './column-spec.ts';
import { COLUMNS_OF_FILE } from './columns-of-file.ts';
import type { HeaderPlan } from './header-plan.ts';
import type { RowCells } from './row-cells.ts';
import type { TableStyle } from './survey-table.ts';

/** What the readers of a file's columns rest on. */
export interface ColumnContext {
  readonly plan: HeaderPlan;
  readonly style: TableStyle;
  readonly settings: Settings;
}

/**
 * The columns of one file, by kind of cell. Each method binds a column and returns a function that
 * reads it in the row at hand (see {@link RowCells}).
 */
export class TableColumns {
  readonly cells: RowCells;
  readonly #context: ColumnContext;

  constructor(cells: RowCells, context: ColumnContext) {
    this.cells = cells;
    this.#context = context;
  }

  /** The header of the file. */
  get plan(): HeaderPlan {
    return this.#context.plan;
  }

  /** A count in the cell at a place in the row; `column` is the name that notes use. */
  countAt(index: number, column: string): () => number | null {
    const spec: ColumnSpec = { name: column, kind: 'number', whole: true, range: [0, 100_000] };
    const read = numberReader({ spec, unit: null, mark: this.#context.style.mark });
    return this.cells.optionalAt({ index, column }, read);
  }

  /** A word looked up in the vocabulary of a column: its canonical word, or itself. */
  listedWord(name: string, word: string): string {
    return this.#vocabularyReader(name)(word).value ?? word;
  }

  /** A number in the column's own unit, within its range. */
  number(name: string): () => number | null {
    return this.cells.optional(name, numberReader(this.#numberContext(name)));
  }

  /** A number that the row cannot do without. */
  requiredNumber(name: string): () => number {
    return this.cells.required(name, numberReader(this.#numberContext(name)), 0);
  }

  /** A direction in degrees. */
  bearing(name: string): () => number | null {
    return this.cells.optional(name, bearingReader(this.#numberContext(name)));
  }

  /** Decimal degrees. */
  latLon(name: string): () => number | null {
    return this.cells.optional(name, latLonReader(this.#numberContext(name)));
  }

  /** Minutes after midnight. */
  clock(name: string): () => number | null {
    const style = this.#context.style.clockStyle.get(name);
    const read = clockReader(name, style ?? { points: false, fractions: true, halfDays: false });
    return this.cells.optional(name, read);
  }

  /** An ISO date that the row cannot do without. */
  requiredDate(name: string): () => string {
    const order = this.#context.style.dateOrder.get(name) ?? 'ymd';
    return this.cells.required(name, dateReader(name, order), '');
  }

  /** A word as written. */
  word(name: string): () => string | null {
    return this.cells.optional(name, readWord);
  }

  /** A word as written, which the row cannot do without. */
  requiredWord(name: string): () => string {
    return this.cells.required(name, readWord, '');
  }

  /** A word of a vocabulary of the settings. */
  listed(name: string): () => string | null {
    return this.cells.optional(name, this.#vocabularyReader(name));
  }

  /** A word of a vocabulary, which the row cannot do without. */
  requiredListed(name: string): () => string {
    return this.cells.required(name, this.#vocabularyReader(name), '');
  }

  /** An identifier, another in nearly every row. */
  id(name: string): () => string | null {
    return this.cells.optional(name, readWord, { distinct: true });
  }

  /** Free text. */
  notes(): () => string | null {
    return this.cells.optional('notes', readText, { distinct: true, long: true });
  }

  /** A position of the spread. */
  position(name: string): () => string | null {
    return this.cells.optional(name, positionReader(this.#context.settings.positions));
  }

  /** A position that the row cannot do without. */
  requiredPosition(name: string): () => string {
    return this.cells.required(name, positionReader(this.#context.settings.positions), '');
  }

  /** A hook size in trade notation. */
  hookSize(name: string): () => string | null {
    return this.cells.optional(name, readHookSize);
  }

  /** One of a few values. */
  choice<T extends string>(name: string, words: ChoiceWords<T>) {
    return this.cells.optional(name, choiceReader(name, words));
  }

  /** One of a few values, which the row cannot do without. */
  requiredChoice<T extends string>(name: string, words: ChoiceWords<T>, standIn: T): () => T {
    return this.cells.required(name, choiceReader(name, words), standIn, Object.keys(words));
  }

  #vocabularyReader(name: string): CellReader<string> {
    const { baits, line_types, species } = this.#context.settings;
    const vocabularies: Readonly<Record<string, Vocabulary>> = {
      bait: baits,
      line_type: line_types,
      species: Object.assign(
        Object.create(null),
        ...Object.entries(species).map(([word, entry]) => ({ [word]: spellingsOf(entry) })),
      ),
    };
    return vocabularyReader(name, vocabularies[name] ?? {});
  }

  #numberContext(name: string): NumberContext {
    const { plan, style } = this.#context;
    const spec = specOf(plan, name);
    const meaning = plan.columns[plan.indexOf.get(name) ?? -1]?.meaning;
    const unit = meaning?.unit ?? spec.unit ?? null;
    return { spec, unit, colons: meaning?.colons ?? null, mark: style.mark };
  }
}

/** A species is also known by its code. */
function spellingsOf({ code, spellings }: SpeciesSetting): readonly string[] {
  return code === null ? spellings : [...spellings, code];
}

function specOf(plan: HeaderPlan, name: string): ColumnSpec {
  const spec = COLUMNS_OF_FILE[plan.file].find((candidate) => candidate.name === name);
  if (spec === undefined) throw new Error(`${plan.file} has no column ${name}.`);
  return spec;
}
