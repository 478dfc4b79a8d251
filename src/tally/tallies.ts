import { type ColumnTable, op, table } from 'arquero';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { type EffortPiece, piecesByClock, wholePiece } from './effort-pieces.ts';
import { type FactorName, factorOf } from './factors.ts';
import { NOT_RECORDED } from './level-order.ts';
import { factorsOf, type Question } from './question.ts';

/** Counts of bites; the `_on_effort` ones leave out bites whose line-hours are not in the group. */
export const COUNTS = [
  'bites',
  'hooked',
  'caught',
  'released',
  'kept',
  'fights',
  'bites_on_effort',
  'hooked_on_effort',
  'caught_on_effort',
  'released_on_effort',
] as const;
export type Count = (typeof COUNTS)[number];

const SUMMED = [...COUNTS, 'line_hours', 'effort_rows', 'assumed_rows'] as const;
type Summed = (typeof SUMMED)[number];

/** One trip in one group: what every estimate is made from. Factor levels stand under their names. */
export type TallyRow = Readonly<Record<Summed, number>> & { readonly trip_id: string } & Readonly<
    Partial<Record<FactorName, string>>
  >;

/**
 * Trip × group tallies: one row for each trip and each combination of levels in which it had a
 * bite or a line out. One pass over the season's rows, whatever is asked.
 *
 * `effort_rows` is 0 where line-hours are not recorded for the cell (then `line_hours` is 0 and
 * means nothing); `assumed_rows` counts effort worked out from hours fished × lines fished.
 * @returns an arquero table with columns `trip_id`, the factors of `by`, and {@link COUNTS},
 * `line_hours`, `effort_rows`, `assumed_rows`.
 */
export function talliesOf(season: TidySeason, question: Question): ColumnTable {
  const { effort } = season;
  const factors = factorsOf(question);
  const rows = new LongTable(question, factors);
  const isAsked = tripFilter(question);
  const bySpecies = factors.includes('species');
  for (const [at, bite] of season.bites.entries()) {
    if (!isAsked(bite.trip) || (bySpecies && bite.outcome === 'missed')) continue;
    const unit = effort.units[effort.unitOfBite[at] ?? -1];
    const onEffort = unit !== undefined && sharesLevels(bite, wholePiece(unit), factors);
    const levels = factors.map((name) => levelText(factorOf(name).ofBite(bite)));
    rows.add(bite.trip_id, levels, countsOf(bite, onEffort));
  }
  const clock = { hour: factors.includes('hour_of_day'), light: factors.includes('light') };
  // A line fishes for every species at once: its hours go to each species asked for, once.
  const species = question.by.includes('species')
    ? rows.levelsMet('species')
    : (question.only.species ?? []).slice(0, 1);
  for (const unit of effort.units) {
    if (!isAsked(unit.trip)) continue;
    for (const piece of piecesByClock(unit, season, clock)) {
      const counts = countsOfEffort(piece);
      for (const levels of levelsOfEffort(piece, factors, species)) {
        rows.add(unit.trip.trip_id, levels, counts);
      }
    }
  }
  return rows.summed();
}

/** Rows of the long table that is then summed by trip and group. */
class LongTable {
  private readonly tripIds: string[] = [];
  private readonly levels: readonly string[][];
  private readonly counts: readonly number[][] = SUMMED.map(() => []);
  private readonly kept: readonly (ReadonlySet<string> | null)[];

  constructor(
    private readonly question: Question,
    private readonly factors: readonly FactorName[],
  ) {
    this.levels = factors.map(() => []);
    this.kept = factors.map((name) => {
      const only = question.only[name];
      return only === undefined ? null : new Set(only);
    });
  }

  /** Adds a row unless a filter leaves it out; levels and counts in the order of their columns. */
  add(tripId: string, levels: readonly string[], counts: readonly number[]): void {
    for (const [at, kept] of this.kept.entries()) {
      if (kept !== null && !kept.has(levels[at] ?? '')) return;
    }
    this.tripIds.push(tripId);
    for (const [at, column] of this.levels.entries()) column.push(levels[at] ?? '');
    for (const [at, column] of this.counts.entries()) column.push(counts[at] ?? 0);
  }

  levelsMet(name: FactorName): readonly string[] {
    return [...new Set(this.levels[this.factors.indexOf(name)])];
  }

  summed(): ColumnTable {
    const columns: Record<string, (string | number)[]> = { trip_id: this.tripIds };
    for (const [at, name] of this.factors.entries()) columns[name] = this.levels[at] ?? [];
    for (const [at, name] of SUMMED.entries()) columns[name] = this.counts[at] ?? [];
    return table(columns)
      .groupby('trip_id', ...this.question.by)
      .rollup(Object.fromEntries(SUMMED.map((name) => [name, op.sum(name)])));
  }
}

/** What a bite adds to each summed column, in their order. */
function countsOf(bite: TidyBite, onEffort: boolean): readonly number[] {
  const { count, outcome } = bite;
  const hooked = outcome === 'missed' ? 0 : count;
  const released = outcome === 'released' ? count : 0;
  const kept = outcome === 'kept' ? count : 0;
  const caught = released + kept;
  const covered = onEffort ? 1 : 0;
  const all = [count, hooked, caught, released, kept, hooked];
  const onHours = [count, hooked, caught, released].map((counted) => covered * counted);
  return [...all, ...onHours, 0, 0, 0];
}

function countsOfEffort({ unit, lineHours }: EffortPiece): readonly number[] {
  return [...COUNTS.map(() => 0), lineHours, 1, unit.soak === null ? 1 : 0];
}

function tripFilter({ from, to }: Question): (trip: TidyTrip) => boolean {
  return (trip) => (from === null || trip.date >= from) && (to === null || trip.date <= to);
}

/**
 * The groups a piece of effort belongs to: none where it cannot be divided as asked; one for each
 * species met, since a line fishes for all of them at once.
 */
function levelsOfEffort(
  piece: EffortPiece,
  factors: readonly FactorName[],
  species: readonly string[],
): readonly (readonly string[])[] {
  const levels: string[] = [];
  for (const name of factors) {
    const level = name === 'species' ? null : factorOf(name).ofEffort(piece);
    if (level === undefined) return [];
    levels.push(levelText(level));
  }
  const at = factors.indexOf('species');
  return at < 0 ? [levels] : species.map((one) => levels.with(at, one));
}

/** Whether the line-hours a bite rests on are counted in the bite's own group. */
function sharesLevels(bite: TidyBite, piece: EffortPiece, factors: readonly FactorName[]): boolean {
  return factors.every((name) => {
    const { scope, ofBite, ofEffort } = factorOf(name);
    if (scope === 'outcome') return true;
    if (scope === 'clock') return ofBite(bite) !== null && piece.unit.start !== null;
    return ofBite(bite) === ofEffort(piece);
  });
}

function levelText(level: string | number | null): string {
  return level === null ? NOT_RECORDED : String(level);
}
