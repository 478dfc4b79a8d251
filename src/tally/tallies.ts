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
  const rows = new LongTable(question);
  const factors = factorsOf(question);
  const isAsked = tripFilter(question);
  for (const [at, bite] of season.bites.entries()) {
    if (!isAsked(bite.trip)) continue;
    const unitIndex = effort.unitOfBite[at] ?? null;
    const unit = unitIndex === null ? undefined : effort.units[unitIndex];
    const onEffort = unit !== undefined && sharesLevels(bite, wholePiece(unit), factors);
    if (factors.includes('species') && bite.outcome === 'missed') continue;
    rows.add(bite.trip_id, levelsOfBite(bite, factors), countsOf(bite, onEffort));
  }
  const split = factors.some((name) => factorOf(name).scope === 'clock');
  // A line fishes for every species at once: its hours go to each species asked for, once.
  const species = question.by.includes('species')
    ? rows.levelsMet('species')
    : (question.only.species ?? []).slice(0, 1);
  for (const unit of effort.units) {
    if (!isAsked(unit.trip)) continue;
    for (const piece of split ? piecesByClock(unit, season) : [wholePiece(unit)]) {
      const counts = {
        line_hours: piece.lineHours,
        effort_rows: 1,
        assumed_rows: unit.soak === null ? 1 : 0,
      };
      for (const levels of levelsOfEffort(piece, factors, species)) {
        rows.add(unit.trip.trip_id, levels, counts);
      }
    }
  }
  return rows.summed();
}

/** Rows of the long table that is then summed by trip and group. */
class LongTable {
  private readonly columns: Record<string, (string | number)[]> = { trip_id: [] };
  private readonly kept: ReadonlyMap<FactorName, ReadonlySet<string>>;

  constructor(private readonly question: Question) {
    for (const name of [...question.by, ...SUMMED]) this.columns[name] = [];
    this.kept = new Map(
      Object.entries(question.only).map(([name, levels]) => [name as FactorName, new Set(levels)]),
    );
  }

  /** Adds a row unless a filter leaves it out. */
  add(
    tripId: string,
    levels: ReadonlyMap<FactorName, string>,
    counts: Readonly<Partial<Record<Summed, number>>>,
  ): void {
    for (const [name, kept] of this.kept) if (!kept.has(levels.get(name) ?? '')) return;
    this.columns.trip_id?.push(tripId);
    for (const name of this.question.by) this.columns[name]?.push(levels.get(name) ?? '');
    for (const name of SUMMED) this.columns[name]?.push(counts[name] ?? 0);
  }

  levelsMet(name: FactorName): readonly string[] {
    return [...new Set(this.columns[name] ?? [])].map(String);
  }

  summed(): ColumnTable {
    return table(this.columns)
      .groupby('trip_id', ...this.question.by)
      .rollup(Object.fromEntries(SUMMED.map((name) => [name, op.sum(name)])));
  }
}

function countsOf(bite: TidyBite, onEffort: boolean): Partial<Record<Summed, number>> {
  const { count, outcome } = bite;
  const hooked = outcome === 'missed' ? 0 : count;
  const released = outcome === 'released' ? count : 0;
  const kept = outcome === 'kept' ? count : 0;
  const caught = released + kept;
  const counts = { bites: count, hooked, caught, released, kept, fights: hooked };
  if (!onEffort) return counts;
  return {
    ...counts,
    bites_on_effort: count,
    hooked_on_effort: hooked,
    caught_on_effort: caught,
    released_on_effort: released,
  };
}

function tripFilter({ from, to }: Question): (trip: TidyTrip) => boolean {
  return (trip) => (from === null || trip.date >= from) && (to === null || trip.date <= to);
}

function levelsOfBite(
  bite: TidyBite,
  factors: readonly FactorName[],
): ReadonlyMap<FactorName, string> {
  return new Map(factors.map((name) => [name, levelText(factorOf(name).ofBite(bite))]));
}

/**
 * The groups a piece of effort belongs to: none where it cannot be divided as asked; one for each
 * species met, since a line fishes for all of them at once.
 */
function levelsOfEffort(
  piece: EffortPiece,
  factors: readonly FactorName[],
  species: readonly string[],
): readonly ReadonlyMap<FactorName, string>[] {
  const levels = new Map<FactorName, string>();
  for (const name of factors) {
    if (name === 'species') continue;
    const level = factorOf(name).ofEffort(piece);
    if (level === undefined) return [];
    levels.set(name, levelText(level));
  }
  if (!factors.includes('species')) return [levels];
  return species.map((one) => new Map(levels).set('species', one));
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
