import { notEstimable } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { factorOf } from '../tally/factors.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import { factorsOf, type Question } from '../tally/question.ts';
import { type TallyRow, tallyRows } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { Figure } from './figure.ts';
import type { GroupRate } from './group-rate.ts';
import type { ProportionMethod, RateMethod } from './methods.ts';
import { perLineHour } from './per-line-hour.ts';
import { borrowedCorrelation, isProportion, proportionOf } from './proportion.ts';

/** What to estimate, and how. */
export interface RateRequest extends Question {
  readonly measures: readonly Measure[];
  readonly level: number;
  readonly seed: number;
  readonly proportionMethod?: ProportionMethod;
  readonly rateMethod?: RateMethod;
}

/** A group of the tallies: one row a trip. */
export interface TalliedGroup {
  readonly by: Readonly<Record<string, string>>;
  readonly rows: readonly TallyRow[];
}

/**
 * Rates with intervals for every group and measure asked, groups in the factors' own order and
 * measures in the order given. Without factors there is one group, the whole log.
 */
export function ratesBy(season: TidySeason, request: RateRequest): GroupRate[] {
  const groups = talliedGroups(season, request);
  const whole = talliedGroups(season, { ...request, by: [] }).flatMap((group) => group.rows);
  return request.measures.flatMap((measure) => {
    const figureOf = figureMaker(measure, whole, request);
    return groups.map(({ by, rows }): GroupRate => {
      return { measure, by, ...countsOfGroup(rows), ...figureOf(rows) };
    });
  });
}

function figureMaker(
  measure: Measure,
  wholeLog: readonly TallyRow[],
  request: RateRequest,
): (rows: readonly TallyRow[]) => Figure {
  const refusal = refusalOf(measure, request);
  if (refusal !== null) {
    const basis = { level: request.level, method: 'refused', n: 0, exposure: null, notes: [] };
    const rate = notEstimable(refusal, basis);
    return () => ({ rate, numerator: 0, denominator: 0, trips: 0, design_effect: null });
  }
  if (!isProportion(measure)) return (rows) => perLineHour(measure, rows, request);
  const correlation = borrowedCorrelation(measure, wholeLog);
  return (rows) => proportionOf(measure, rows, { ...request, correlation });
}

/** The groups of a question in the factors' own order. */
export function talliedGroups(season: TidySeason, question: Question): TalliedGroup[] {
  const rows = tallyRows(season, question);
  if (question.by.length === 0) return [{ by: {}, rows }];
  const keyOf = (row: TallyRow) => JSON.stringify(question.by.map((name) => row[name]));
  const groups = [...groupBy(rows, keyOf).values()].map((ofGroup) => ({
    by: Object.fromEntries(question.by.map((name) => [name, ofGroup[0]?.[name] ?? ''])),
    rows: ofGroup,
  }));
  const places = question.by.map((name) => {
    const levels = [...new Set(groups.map(({ by }) => by[name] ?? ''))];
    levels.sort(factorOf(name).order(season.log.settings));
    return new Map(levels.map((level, place) => [level, place]));
  });
  const placeOf = ({ by }: TalliedGroup) =>
    question.by.map((name, at) => places[at]?.get(by[name] ?? '') ?? 0);
  return groups
    .map((group) => ({ group, place: placeOf(group) }))
    .sort((a, b) => firstDifference(a.place, b.place))
    .map(({ group }) => group);
}

function firstDifference(a: readonly number[], b: readonly number[]): number {
  for (let at = 0; at < a.length; at += 1) {
    const difference = (a[at] ?? 0) - (b[at] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Why a measure makes no sense for the factors asked; null: it does. */
export function refusalOf(measure: Measure, question: Question): string | null {
  const { numerator, denominator } = MEASURES[measure];
  if (!factorsOf(question).includes('species')) return null;
  if (numerator !== 'bites' && denominator !== 'bites') return null;
  return (
    'A missed bite has no sure species, so bites cannot be divided by species. ' +
    'Ask by species for caught_rate, release_rate, or fish hooked, caught or released per line-hour.'
  );
}

function countsOfGroup(
  rows: readonly TallyRow[],
): Pick<
  GroupRate,
  'bites' | 'hooked' | 'caught' | 'released' | 'kept' | 'line_hours' | 'effort_cover'
> {
  const sum = (name: 'bites' | 'hooked' | 'caught' | 'released' | 'kept') =>
    rows.reduce((total, row) => total + row[name], 0);
  const bites = sum('bites');
  const covered = rows.reduce((total, row) => total + row.bites_on_effort, 0);
  const hasEffort = rows.some((row) => row.effort_rows > 0);
  return {
    bites,
    hooked: sum('hooked'),
    caught: sum('caught'),
    released: sum('released'),
    kept: sum('kept'),
    line_hours: hasEffort ? rows.reduce((total, row) => total + row.line_hours, 0) : null,
    effort_cover: bites === 0 ? null : covered / bites,
  };
}
