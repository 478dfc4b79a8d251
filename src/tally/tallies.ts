import { type ColumnTable, from, op, table } from 'arquero';
import { remembered } from '../tidy/remember.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { type EffortPiece, piecesByClock } from './effort-pieces.ts';
import type { FactorName } from './factors.ts';
import { levelColumns, levelOfEffort } from './level-columns.ts';
import { factorsOf, type Question } from './question.ts';

/** Counts of bites; the `_on_effort` ones leave out bites whose line-hours are not in the group. */
const COUNTS = ['bites', 'hooked', 'caught', 'released', 'kept', 'fights'] as const;
const COUNTS_ON_EFFORT = [
  'bites_on_effort',
  'hooked_on_effort',
  'caught_on_effort',
  'released_on_effort',
] as const;
const EFFORT = ['line_hours', 'effort_rows', 'assumed_rows'] as const;
const SUMMED = [...COUNTS, ...COUNTS_ON_EFFORT, ...EFFORT] as const;

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
 * @returns an arquero table with columns `trip_id`, the factors of `by`, the counts, `line_hours`,
 * `effort_rows`, `assumed_rows`.
 */
export function talliesOf(season: TidySeason, question: Question): ColumnTable {
  return from([...tallyRows(season, question)]);
}

/** The rows of {@link talliesOf}; those of a question asked before are kept with the season. */
export function tallyRows(season: TidySeason, question: Question): readonly TallyRow[] {
  const { by, only, from: first, to } = question;
  return remembered(season, { tally: [by, only, first, to] }, () => countRows(season, question));
}

function countRows(season: TidySeason, question: Question): readonly TallyRow[] {
  const long = new LongTable(question);
  const speciesMet = addBites(long, season, question);
  // A line fishes for every species at once: its hours go to each species asked for, once.
  const asked = (question.only.species ?? []).slice(0, 1);
  addEffort(long, season, {
    question,
    species: question.by.includes('species') ? speciesMet : asked,
  });
  return long.summed();
}

/** Adds the bites asked for; returns the species met among them. */
function addBites(long: LongTable, season: TidySeason, question: Question): string[] {
  const factors = factorsOf(question);
  const columns = factors.map((name) => levelColumns(season, name));
  const isAsked = tripFilter(question);
  const speciesAt = factors.indexOf('species');
  const species = new Set<string>();
  for (const [at, bite] of season.bites.entries()) {
    if (!isAsked(bite.trip) || (speciesAt >= 0 && bite.outcome === 'missed')) continue;
    const levels = columns.map(({ ofBite }) => ofBite[at] ?? '');
    const isOnEffort =
      season.effort.unitOfBite[at] != null && columns.every(({ onEffort }) => onEffort[at]);
    const isKept = long.add(bite.trip_id, levels, countsOf(bite, isOnEffort));
    if (isKept && speciesAt >= 0) species.add(levels[speciesAt] ?? '');
  }
  return [...species];
}

function addEffort(
  long: LongTable,
  season: TidySeason,
  { question, species }: { readonly question: Question; readonly species: readonly string[] },
): void {
  const factors = factorsOf(question);
  const columns = factors.map((name) => levelColumns(season, name));
  const isAsked = tripFilter(question);
  const clock = { hour: factors.includes('hour_of_day'), light: factors.includes('light') };
  const speciesAt = factors.indexOf('species');
  const add = (tripId: string, levels: readonly (string | null)[], sums: Sums) => {
    const each = speciesAt < 0 ? [levels] : species.map((one) => levels.with(speciesAt, one));
    for (const known of each) if (isDivided(known)) long.add(tripId, known, sums);
  };
  for (const [at, unit] of season.effort.units.entries()) {
    if (!isAsked(unit.trip)) continue;
    const assumed = unit.soak === null ? 1 : 0;
    const sums = (lineHours: number): Sums => ({
      line_hours: lineHours,
      effort_rows: 1,
      assumed_rows: assumed,
    });
    if (clock.hour || clock.light) {
      for (const piece of piecesByClock(unit, season, clock)) {
        add(unit.trip.trip_id, levelsOfPiece(piece, factors), sums(piece.lineHours));
      }
    } else {
      const levels = columns.map(({ ofUnit }) => ofUnit[at] ?? null);
      add(unit.trip.trip_id, levels, sums(unit.lineHours));
    }
  }
}

const levelsOfPiece = (piece: EffortPiece, factors: readonly FactorName[]) =>
  factors.map((name) => levelOfEffort(name, piece));

const isDivided = (levels: readonly (string | null)[]): levels is readonly string[] =>
  !levels.includes(null);

/** What one row adds to the sums; what is absent adds nothing. */
type Sums = Readonly<Partial<Record<Summed, number>>>;

function countsOf({ count, outcome }: TidyBite, isOnEffort: boolean): Sums {
  const hooked = outcome === 'missed' ? 0 : count;
  const released = outcome === 'released' ? count : 0;
  const kept = outcome === 'kept' ? count : 0;
  const caught = released + kept;
  const counts = { bites: count, hooked, caught, released, kept, fights: hooked };
  if (!isOnEffort) return counts;
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

/** Bites and pieces of effort as rows of one long table, which is then summed by trip and group. */
class LongTable {
  private readonly kept: readonly (ReadonlySet<string> | null)[];
  /** Trip and levels of each group, by what spells them out. */
  private readonly groups = new Map<string, { number: number; labels: readonly string[] }>();
  private readonly group: number[] = [];
  private readonly columns = SUMMED.map((name) => ({ name, values: [] as number[] }));

  constructor(private readonly question: Question) {
    this.kept = factorsOf(question).map((name) => {
      const only = question.only[name];
      return only === undefined ? null : new Set(only);
    });
  }

  /** Adds a row unless a filter leaves it out; levels in the order of `factorsOf`. */
  add(tripId: string, levels: readonly string[], sums: Sums): boolean {
    for (let at = 0; at < this.kept.length; at += 1) {
      if (this.kept[at]?.has(levels[at] ?? '') === false) return false;
    }
    this.group.push(this.groupNumber([tripId, ...levels.slice(0, this.question.by.length)]));
    for (const { name, values } of this.columns) values.push(sums[name] ?? 0);
    return true;
  }

  private groupNumber(labels: readonly string[]): number {
    const spelt = JSON.stringify(labels);
    const known = this.groups.get(spelt) ?? { number: this.groups.size, labels };
    this.groups.set(spelt, known);
    return known.number;
  }

  /** One row for each group, in the order they were met. */
  summed(): TallyRow[] {
    const columns = this.columns.map(({ name, values }) => [name, values] as const);
    const sums = table({ group: this.group, ...Object.fromEntries(columns) })
      .groupby('group')
      .rollup(Object.fromEntries(SUMMED.map((name) => [name, op.sum(name)])))
      .select([...SUMMED])
      .objects() as Record<Summed, number>[];
    return [...this.groups.values()].map(({ number, labels: [tripId, ...levels] }) => {
      const names = this.question.by.map((name, at) => [name, levels[at] ?? '']);
      return { trip_id: tripId ?? '', ...Object.fromEntries(names), ...sums[number] } as TallyRow;
    });
  }
}
