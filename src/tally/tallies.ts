import { type ColumnTable, from, op, table } from 'arquero';
import type { EffortUnit } from '../tidy/effort.ts';
import { remembered } from '../tidy/remember.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { BITE_COUNTS, biteCounts } from './bite-counts.ts';
import { piecesByClock } from './effort-pieces.ts';
import type { FactorName } from './factors.ts';
import { type LevelColumns, levelOfEffort, UNDIVIDED } from './level-columns.ts';
import type { Question } from './question.ts';
import { TallyGroups } from './tally-groups.ts';

/** Counts again of those bites only whose line-hours are in the group. */
const ON_EFFORT = {
  bites_on_effort: 'bites',
  hooked_on_effort: 'hooked',
  caught_on_effort: 'caught',
  released_on_effort: 'released',
} as const;
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
const NOTHING = { ...NO_COUNTS, ...NO_EFFORT };

type Summed = keyof typeof NOTHING;

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
  const groups = new TallyGroups(season, question);
  const counted = summed(biteRows(season, question, groups));
  const fished = summed(effortRows(season, question, groups));
  return groups.rows((group) => ({ ...NOTHING, ...counted.get(group), ...fished.get(group) }));
}

/** Columns of equal length: the group of each row, and what the row adds to each sum. */
type LongColumns = Readonly<Record<string, ArrayLike<number>>> & {
  readonly group: ArrayLike<number>;
};

/** Sums of every column by group. */
function summed(columns: LongColumns): ReadonlyMap<number, Partial<Record<Summed, number>>> {
  const names = Object.keys(columns).filter((name) => name !== 'group');
  const rows = table(columns)
    .groupby('group')
    .rollup(Object.fromEntries(names.map((name) => [name, op.sum(name)])))
    .objects() as ({ group: number } & Partial<Record<Summed, number>>)[];
  return new Map(rows.map(({ group, ...sums }) => [group, sums]));
}

/** One row for each bite that is asked for. */
function biteRows(season: TidySeason, question: Question, groups: TallyGroups): LongColumns {
  const { factors, columns } = groups;
  const isAsked = tripFilter(question);
  const bySpecies = factors.includes('species');
  const levels = new Int32Array(factors.length);
  const rows: number[] = [];
  const group: number[] = [];
  const onEffort: number[] = [];
  // Plain loops: these run over every row of the log for every question of a report.
  for (let at = 0; at < season.bites.length; at += 1) {
    const bite = season.bites[at] as TidyBite;
    if (!isAsked(bite.trip) || (bySpecies && bite.outcome === 'missed')) continue;
    let covered = season.effort.unitOfBite[at] == null ? 0 : 1;
    for (let place = 0; place < columns.length; place += 1) {
      const column = columns[place] as LevelColumns;
      levels[place] = column.ofBite[at] ?? UNDIVIDED;
      covered *= column.onEffort[at] ?? 0;
    }
    const number = groups.groupOf(bite.trip_id, levels);
    if (number === null) continue;
    rows.push(at);
    group.push(number);
    onEffort.push(covered);
  }
  const counts = biteCounts(season);
  const counted = BITE_COUNTS.map((name) => [name, pick(counts[name], rows)] as const);
  const picked = Object.fromEntries(counted);
  const covered = Object.entries(ON_EFFORT).map(([name, of]) => {
    return [name, picked[of]?.map((count, row) => count * (onEffort[row] ?? 0))] as const;
  });
  return { group, ...picked, ...Object.fromEntries(covered) };
}

/** One row for each piece of effort that is asked for, and for each species asked for. */
function effortRows(season: TidySeason, question: Question, groups: TallyGroups): LongColumns {
  const { factors, columns } = groups;
  const isAsked = tripFilter(question);
  const clock = { hour: factors.includes('hour_of_day'), light: factors.includes('light') };
  const species = speciesFished(question, groups);
  const levels = new Int32Array(factors.length);
  const group: number[] = [];
  const lineHours: number[] = [];
  const assumed: number[] = [];
  const once = [null];
  const add = (unit: EffortUnit, hours: number) => {
    for (const one of species ?? once) {
      if (one !== null) levels[factors.indexOf('species')] = one;
      const number = levels.includes(UNDIVIDED) ? null : groups.groupOf(unit.trip.trip_id, levels);
      if (number === null) continue;
      group.push(number);
      lineHours.push(hours);
      assumed.push(unit.soak === null ? 1 : 0);
    }
  };
  for (let at = 0; at < season.effort.units.length; at += 1) {
    const unit = season.effort.units[at] as EffortUnit;
    if (!isAsked(unit.trip)) continue;
    if (!clock.hour && !clock.light) {
      for (let place = 0; place < columns.length; place += 1)
        levels[place] = columns[place]?.ofUnit[at] ?? UNDIVIDED;
      add(unit, unit.lineHours);
      continue;
    }
    for (const piece of piecesByClock(unit, season, clock)) {
      for (const [place, { labels }] of columns.entries())
        levels[place] = levelOfEffort(factors[place] as FactorName, piece, labels);
      add(unit, piece.lineHours);
    }
  }
  return { group, line_hours: lineHours, effort_rows: group.map(() => 1), assumed_rows: assumed };
}

/**
 * A line fishes for every species at once: its hours go to each species that was met, or once to
 * those kept by a filter. null where no species is asked for.
 */
function speciesFished(question: Question, groups: TallyGroups): readonly number[] | null {
  const at = groups.factors.indexOf('species');
  if (at < 0) return null;
  if (question.by.includes('species')) return groups.levelsMet(at);
  const kept = (question.only.species ?? []).slice(0, 1);
  return kept.map((level) => groups.columns[at]?.labels.numberOf(level) ?? UNDIVIDED);
}

function pick(values: Float64Array, rows: readonly number[]): Float64Array {
  const picked = new Float64Array(rows.length);
  for (let at = 0; at < rows.length; at += 1) picked[at] = values[rows[at] ?? 0] ?? 0;
  return picked;
}

function tripFilter({ from, to }: Question): (trip: TidyTrip) => boolean {
  return (trip) => (from === null || trip.date >= from) && (to === null || trip.date <= to);
}
