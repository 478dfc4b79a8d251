import { type ColumnTable, from, op, table } from 'arquero';
import type { EffortUnit } from '../tidy/effort.ts';
import { remembered } from '../tidy/remember.ts';
import { lightAt } from '../tidy/sunlight.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { type EffortPiece, piecesByClock, wholePiece } from './effort-pieces.ts';
import { type FactorName, factorOf } from './factors.ts';
import { NOT_RECORDED } from './level-order.ts';
import { factorsOf, type Question } from './question.ts';

/** Counts of bites; the `_on_effort` ones leave out bites whose line-hours are not in the group. */
const NO_COUNTS = {
  bites: 0,
  hooked: 0,
  caught: 0,
  released: 0,
  kept: 0,
  fights: 0,
  bites_on_effort: 0,
  hooked_on_effort: 0,
  caught_on_effort: 0,
  released_on_effort: 0,
};
const NO_EFFORT = { line_hours: 0, effort_rows: 0, assumed_rows: 0 };

type Count = keyof typeof NO_COUNTS;
type Summed = Count | keyof typeof NO_EFFORT;
const COUNTS = Object.keys(NO_COUNTS) as readonly Count[];
const EFFORT_SUMS = Object.keys(NO_EFFORT) as readonly (keyof typeof NO_EFFORT)[];

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
  const { effort } = season;
  const factors = factorsOf(question);
  const bites = new LongTable(question, { factors, sums: COUNTS });
  const isAsked = tripFilter(question);
  const bySpecies = factors.includes('species');
  for (const [at, bite] of season.bites.entries()) {
    if (!isAsked(bite.trip) || (bySpecies && bite.outcome === 'missed')) continue;
    const unit = effort.units[effort.unitOfBite[at] ?? -1];
    const onEffort = unit !== undefined && sharesLevels(bite, unit, { factors, season });
    const levels = factors.map((name) => levelText(factorOf(name).ofBite(bite)));
    bites.add(bite.trip_id, levels, countsOf(bite, onEffort));
  }
  const clock = { hour: factors.includes('hour_of_day'), light: factors.includes('light') };
  // A line fishes for every species at once: its hours go to each species asked for, once.
  const species = question.by.includes('species')
    ? bites.levelsMet('species')
    : (question.only.species ?? []).slice(0, 1);
  const hours = new LongTable(question, { factors, sums: EFFORT_SUMS });
  for (const unit of effort.units) {
    if (!isAsked(unit.trip)) continue;
    for (const piece of piecesByClock(unit, season, clock)) {
      const sums = [piece.lineHours, 1, unit.soak === null ? 1 : 0];
      for (const levels of levelsOfEffort(piece, factors, species)) {
        hours.add(unit.trip.trip_id, levels, sums);
      }
    }
  }
  return joined(bites.summed(), hours.summed(), question);
}

/** Counts and line-hours of the same trip and group in one row; what one lacks is zero. */
function joined(bites: ColumnTable, hours: ColumnTable, { by }: Question): readonly TallyRow[] {
  const keyOf = (row: TallyRow) => JSON.stringify([row.trip_id, ...by.map((name) => row[name])]);
  const rows = new Map<string, TallyRow>();
  for (const counts of bites.objects() as TallyRow[]) {
    rows.set(keyOf(counts), { ...counts, ...NO_EFFORT });
  }
  for (const effort of hours.objects() as TallyRow[]) {
    const counted = rows.get(keyOf(effort)) ?? NO_COUNTS;
    rows.set(keyOf(effort), { ...counted, ...effort });
  }
  return [...rows.values()];
}

/** Rows of a long table that is then summed by trip and group. */
class LongTable {
  private readonly tripIds: string[] = [];
  private readonly levels: readonly string[][];
  private readonly sums: readonly number[][];
  private readonly kept: readonly (ReadonlySet<string> | null)[];

  constructor(
    private readonly question: Question,
    private readonly columns: {
      readonly factors: readonly FactorName[];
      readonly sums: readonly Summed[];
    },
  ) {
    this.levels = columns.factors.map(() => []);
    this.sums = columns.sums.map(() => []);
    this.kept = columns.factors.map((name) => {
      const only = question.only[name];
      return only === undefined ? null : new Set(only);
    });
  }

  /** Adds a row unless a filter leaves it out; levels and sums in the order of their columns. */
  add(tripId: string, levels: readonly string[], sums: readonly number[]): void {
    for (let at = 0; at < this.kept.length; at += 1) {
      if (this.kept[at]?.has(levels[at] ?? '') === false) return;
    }
    this.tripIds.push(tripId);
    for (let at = 0; at < this.levels.length; at += 1) this.levels[at]?.push(levels[at] ?? '');
    for (let at = 0; at < this.sums.length; at += 1) this.sums[at]?.push(sums[at] ?? 0);
  }

  levelsMet(name: FactorName): readonly string[] {
    return [...new Set(this.levels[this.columns.factors.indexOf(name)])];
  }

  summed(): ColumnTable {
    const columns: Record<string, (string | number)[]> = { trip_id: this.tripIds };
    for (const [at, name] of this.columns.factors.entries()) columns[name] = this.levels[at] ?? [];
    for (const [at, name] of this.columns.sums.entries()) columns[name] = this.sums[at] ?? [];
    return table(columns)
      .groupby('trip_id', ...this.question.by)
      .rollup(Object.fromEntries(this.columns.sums.map((name) => [name, op.sum(name)])));
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
  return [...all, ...onHours];
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
function sharesLevels(
  bite: TidyBite,
  unit: EffortUnit,
  { factors, season }: { readonly factors: readonly FactorName[]; readonly season: TidySeason },
): boolean {
  const awayFromSpread = unit.position !== null && unit.position.name !== bite.position;
  return factors.every((name) => {
    const { scope, ofBite, ofEffort } = factorOf(name);
    if (scope === 'outcome') return true;
    if (scope === 'clock') return clockLevels(bite, unit, season)[name] === ofBite(bite);
    if (scope === 'line' && awayFromSpread) return false;
    return ofBite(bite) === ofEffort(wholePiece(unit));
  });
}

/**
 * Hour and light of the last minute of effort at a bite: a bite at the very end of a soak belongs
 * to the minute before, and one outside the unit's hours to none of them.
 */
function clockLevels(
  { instant, trip }: TidyBite,
  { start, end }: EffortUnit,
  { clock }: TidySeason,
): Readonly<Partial<Record<FactorName, string | number>>> {
  if (instant === null || start === null || end === null) return {};
  if (instant < start || instant > end) return {};
  const minute = instant === end && end > start ? end - 1 : instant;
  const { lat, lon } = trip;
  const hour = { hour_of_day: clock.hourAt(minute) };
  return lat === null || lon === null ? hour : { ...hour, light: lightAt(minute, lat, lon) };
}

function levelText(level: string | number | null): string {
  return level === null ? NOT_RECORDED : String(level);
}
