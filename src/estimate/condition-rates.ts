import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import { tallyRows } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { AskedPart } from './asked-rows.ts';
import { type Condition, conditions } from './condition-bands.ts';
import { type ConditionTest, conditionTest, flagged, type TripBites } from './condition-tests.ts';
import { perLineHour } from './per-line-hour.ts';

/** The bites on trips of one level of a condition. */
export interface ConditionLevel {
  readonly level: string;
  /** As pages name it. */
  readonly name: string;
  /** Trips with line-hours. */
  readonly trips: number;
  /** Bites whose line-hours are known. */
  readonly bites: number;
  readonly lineHours: number;
  /** Bites per line-hour. */
  readonly rate: Estimate;
}

/** A condition with its levels, and whether bites go with it. */
export interface ConditionRates {
  readonly condition: Condition;
  /** In the condition's own order; what is not recorded comes last. */
  readonly levels: readonly ConditionLevel[];
  readonly test: ConditionTest;
  /** Whether it still stands out after correction for looking at all of them. */
  readonly standsOut: boolean;
}

/**
 * Bites per line-hour by every condition of the day, each with its interval, and the test of each
 * corrected for how many were looked at (Benjamini–Hochberg, false alarms held to 1 − level).
 * Figures are as logged: a condition that goes with the season shows the season too.
 */
export function conditionRates(
  season: TidySeason,
  part: AskedPart & { readonly level: number; readonly seed: number },
): ConditionRates[] {
  const tripOf = new Map(season.trips.map((trip) => [trip.trip_id, trip]));
  const { only, from, to } = part;
  const rows = tallyRows(season, { by: [], only, from, to }).flatMap((row): TripBites[] => {
    const trip = tripOf.get(row.trip_id);
    return trip === undefined ? [] : [{ trip, row }];
  });
  const found = conditions(
    rows.map(({ trip }) => trip),
    season.log.settings,
  ).map((condition) => ({
    condition,
    levels: levelsOf(condition, rows, part),
    test: conditionTest(condition, rows),
  }));
  const flags = flagged(
    found.map(({ test }) => test),
    part.level,
  );
  return found.map((one, at) => ({ ...one, standsOut: flags[at] === true }));
}

function levelsOf(
  condition: Condition,
  rows: readonly TripBites[],
  options: { readonly level: number; readonly seed: number },
): ConditionLevel[] {
  const groups = groupBy(rows, ({ trip }) => condition.levelOf(trip) ?? NOT_RECORDED);
  return [...groups.keys()].sort(condition.order).map((level) => {
    const of = (groups.get(level) ?? []).map(({ row }) => row);
    const { rate, numerator, denominator, trips } = perLineHour('bites_per_line_hour', of, options);
    const name = level === NOT_RECORDED ? level : condition.nameOf(level);
    return { level, name, rate, bites: numerator, lineHours: denominator, trips };
  });
}
