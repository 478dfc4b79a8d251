import type { TidySeason } from '../tidy/tidy-season.ts';
import type { FactorName } from './factors.ts';
import { type LevelColumns, levelColumns } from './level-columns.ts';
import { factorsOf, type Question } from './question.ts';

/** A group of one trip: its number, the trip and the levels that make it. */
interface Group {
  readonly tripId: string;
  readonly levels: readonly number[];
}

/** Gives the groups of a question numbers, in the order they are met. */
export class TallyGroups {
  /** Every factor of the question, those it divides by first, and where their levels stand. */
  readonly factors: readonly FactorName[];
  readonly columns: readonly LevelColumns[];
  private readonly by: readonly FactorName[];
  private readonly kept: readonly (ReadonlySet<number> | null)[];
  private readonly trips = new Map<string, number>();
  /** One step for each factor divided by: from the number so far and the level to the next number. */
  private readonly steps: readonly Map<number, number>[];
  private readonly groups: Group[] = [];

  constructor(season: TidySeason, { by, only, ...rest }: Question) {
    this.by = by;
    this.factors = factorsOf({ by, only, ...rest });
    this.columns = this.factors.map((name) => levelColumns(season, name));
    this.kept = this.factors.map((name, at) => {
      const numbers = only[name]?.map((level) => this.columns[at]?.labels.numberOf(level) ?? -1);
      return numbers === undefined ? null : new Set(numbers);
    });
    this.steps = by.map(() => new Map());
  }

  /** The group of a trip and its levels, in the order of `factors`; null where a filter says no. */
  groupOf(tripId: string, levels: ArrayLike<number>): number | null {
    for (let at = 0; at < this.kept.length; at += 1)
      if (this.kept[at]?.has(levels[at] ?? -1) === false) return null;
    let number = this.trips.get(tripId) ?? this.trips.size;
    if (number === this.trips.size) this.trips.set(tripId, number);
    for (let at = 0; at < this.steps.length; at += 1) {
      const step = this.steps[at] as Map<number, number>;
      const key = number * MOST_LEVELS + (levels[at] ?? 0);
      number = step.get(key) ?? step.size;
      if (number === step.size) step.set(key, number);
    }
    if (number === this.groups.length)
      this.groups.push({ tripId, levels: this.by.map((_, at) => levels[at] ?? 0) });
    return number;
  }

  /** The levels of one of the factors divided by, as far as they were met. */
  levelsMet(place: number): readonly number[] {
    return [...new Set(this.groups.map(({ levels }) => levels[place] ?? 0))];
  }

  /** One row for each group, with what `sumsOf` gives for its number. */
  rows<Sums extends object>(sumsOf: (group: number) => Sums) {
    return this.groups.map(({ tripId, levels }, group) => {
      const named: Partial<Record<FactorName, string>> = {};
      for (let at = 0; at < this.by.length; at += 1)
        named[this.by[at] as FactorName] = this.columns[at]?.labels.label(levels[at] ?? 0) ?? '';
      return { trip_id: tripId, ...named, ...sumsOf(group) };
    });
  }
}

/** More levels than any factor of a log can have: no log has so many rows. */
const MOST_LEVELS = 2 ** 24;
