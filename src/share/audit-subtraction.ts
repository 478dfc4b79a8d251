import { propagateIntervals, type SumLine } from './interval-propagation.ts';
import type { Stratum } from './merge-cells.ts';
import { type Period, type PeriodKind, periodOf, periodText } from './period.ts';
import type { ProtectedTotals } from './protect-totals.ts';
import type { ShareTrip } from './share-trip.ts';

/** Trips of one period that stand in no row. */
export interface HiddenGroup {
  readonly period: Period;
  readonly trips: readonly ShareTrip[];
}

/** The groups a reader would like to know: squares left out or given up, and trips without a place. */
export function hiddenGroups(
  suppressed: readonly Stratum[],
  { givenUp }: ProtectedTotals,
  {
    outside,
    period: kind,
  }: { readonly outside: readonly ShareTrip[]; readonly period: PeriodKind },
): HiddenGroup[] {
  const loose = new Map<string, ShareTrip[]>();
  for (const trip of outside) {
    const key = periodText(periodOf(trip.month, kind));
    loose.set(key, [...(loose.get(key) ?? []), trip]);
  }
  const looseGroups = [...loose.values()].map((trips) => ({
    period: periodOf(trips[0]?.month ?? '', kind),
    trips,
  }));
  return [...suppressed, ...givenUp, ...looseGroups];
}

/**
 * Plays the reader who subtracts: the hidden groups whose number of trips follows exactly from the
 * rows and totals that are about to leave, though they may not be shown.
 */
export function exposedGroups(
  hidden: readonly HiddenGroup[],
  { rows, totals }: ProtectedTotals,
  mayPublish: (trips: readonly ShareTrip[]) => boolean,
): HiddenGroup[] {
  const lines = totals.map(({ period, trips }): SumLine => {
    const isInside = (one: Period) => period === null || periodText(one) === periodText(period);
    const shown = rows.filter((row) => isInside(row.period)).flatMap((row) => row.trips);
    const unknowns = [...hidden.keys()].filter((at) => {
      const group = hidden[at];
      return group !== undefined && isInside(group.period);
    });
    return { unknowns, sum: trips.length - shown.length };
  });
  const limits = propagateIntervals(hidden.length, lines);
  return hidden.filter(({ trips }, at) => {
    const { lower = 0, upper = Number.POSITIVE_INFINITY } = limits[at] ?? {};
    return upper - lower < 1 && !mayPublish(trips);
  });
}
