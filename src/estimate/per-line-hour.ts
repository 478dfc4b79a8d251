import { type Estimate, notEstimable } from '../base/estimate.ts';
import { ratioBootstrapBca } from '../stats/bootstrap-ratio.ts';
import { ratioLogT, ratioTrip } from '../stats/clustered-ratio-trip.ts';
import { garwood } from '../stats/interval-rate.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { Figure } from './figure.ts';
import type { RateMethod } from './methods.ts';

/** Marks a figure whose line-hours are hours fished × lines fished. */
export const ASSUMED_EFFORT =
  'assumed effort: line-hours are hours fished times lines fished, as if every line were out all the time.';

const NOT_RECORDED =
  'Line-hours are not recorded for this group. Lines in and out in soaks.csv would give them; ' +
  'for whole trips, hours and lines fished in trips.csv are enough.';
const NO_HOURS = 'No line was in the water in this group, so there is no rate.';

interface RateOptions {
  readonly level: number;
  readonly seed: number;
  readonly rateMethod?: RateMethod;
}

/**
 * Events per line-hour of one group with its interval; trips are the clusters. Only trips with
 * line-hours count, and of their bites only those whose line-hours are in the group.
 * @returns not estimable where no line-hours are recorded, or all are zero.
 */
export function perLineHour(
  measure: Measure,
  rows: readonly TallyRow[],
  options: RateOptions,
): Figure {
  const counted = MEASURES[measure].numerator;
  const trips = rows
    .filter((row) => row.line_hours > 0)
    .map((row) => ({ events: row[`${counted}_on_effort`], exposure: row.line_hours }));
  const numerator = trips.reduce((sum, trip) => sum + trip.events, 0);
  const denominator = trips.reduce((sum, trip) => sum + trip.exposure, 0);
  const totals = { numerator, denominator, trips: trips.length };
  if (trips.length === 0) {
    const reason = rows.some((row) => row.effort_rows > 0) ? NO_HOURS : NOT_RECORDED;
    const method = options.rateMethod ?? 'ratio-trip';
    const basis = { level: options.level, method, n: 0, exposure: null, notes: [] };
    return { ...totals, rate: notEstimable(reason, basis), design_effect: null };
  }
  const { rate, designEffect } = interval(trips, totals, options);
  const notes = rows.some((row) => row.assumed_rows > 0)
    ? [...rate.notes, ASSUMED_EFFORT]
    : rate.notes;
  return { ...totals, rate: { ...rate, notes }, design_effect: designEffect };
}

function interval(
  trips: readonly { readonly events: number; readonly exposure: number }[],
  totals: { readonly numerator: number; readonly denominator: number },
  { level, seed, rateMethod = 'ratio-trip' }: RateOptions,
): { readonly rate: Estimate; readonly designEffect: number | null } {
  if (rateMethod === 'garwood') {
    return { rate: garwood(totals.numerator, totals.denominator, { level }), designEffect: null };
  }
  if (rateMethod === 'bootstrap-bca') {
    return { rate: ratioBootstrapBca(trips, { level, seed }), designEffect: null };
  }
  const rate =
    rateMethod === 'ratio-trip' ? ratioTrip(trips, { level }) : ratioLogT(trips, { level });
  return { rate, designEffect: rate.designEffect };
}
