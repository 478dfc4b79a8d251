import { groupBy } from '../base/group-by.ts';
import type { MergedCells, Stratum } from './merge-cells.ts';
import { type Period, type PeriodKind, periodOf, periodText } from './period.ts';
import type { ShareTrip } from './share-trip.ts';

/** A sum over rows that also holds what is left out of them. */
export interface Total {
  /** null: over all periods. */
  readonly period: Period | null;
  readonly trips: readonly ShareTrip[];
}

/** Rows and totals that can stand together without one giving another away. */
export interface ProtectedTotals {
  readonly rows: readonly Stratum[];
  /** Rows left out only so that a total may stand. */
  readonly givenUp: readonly Stratum[];
  readonly totals: readonly Total[];
  /** How many totals are withheld. */
  readonly withheld: number;
  /** Groups that a reader can work out by subtracting rows from totals; each may be shown. */
  readonly rests: readonly (readonly ShareTrip[])[];
}

interface ProtectOptions {
  readonly period: PeriodKind;
  readonly mayPublish: (trips: readonly ShareTrip[]) => boolean;
}

interface PeriodPart {
  readonly total: Total;
  readonly rows: readonly Stratum[];
  readonly givenUp: readonly Stratum[];
  readonly rest: readonly ShareTrip[];
  readonly isShown: boolean;
}

/**
 * Secondary suppression. A total less the rows inside it shows their rest: where that rest is too
 * small a group to be shown, further rows of the total are given up until it is large enough, or
 * the total itself is withheld, whichever costs less effort shown. Totals nest (rows in periods,
 * periods in the whole), so all that any subtraction can reach is unions of rows and rests.
 * Source: Hundepool et al., Handbook on Statistical Disclosure Control, ch. 4 (hierarchical tables).
 *
 * @param trips all trips, placed or not; their sums are the totals.
 */
export function protectTotals(
  trips: readonly ShareTrip[],
  { released }: MergedCells,
  { period, mayPublish }: ProtectOptions,
): ProtectedTotals {
  const rowsOf = groupBy(released, (row) => periodText(row.period));
  const byPeriod = [...groupBy(trips, (trip) => periodText(periodOf(trip.month, period)))].sort();
  const parts = byPeriod.map(([key, own]) =>
    periodPart(own, rowsOf.get(key) ?? [], { period, mayPublish }),
  );
  const unseen = parts.filter((part) => !part.isShown).flatMap((part) => part.rest);
  const whole = mayPublish(trips) && (unseen.length === 0 || mayPublish(unseen));
  const shown = parts.filter((part) => part.isShown);
  const totals = shown.map((part) => part.total);
  return {
    rows: parts.flatMap((part) => part.rows),
    givenUp: parts.flatMap((part) => part.givenUp),
    totals: whole ? [...totals, { period: null, trips }] : totals,
    withheld: parts.length - shown.length + (whole ? 0 : 1),
    rests: [...shown.map((part) => part.rest), whole ? unseen : []].filter(
      (rest) => rest.length > 0,
    ),
  };
}

function periodPart(
  trips: readonly ShareTrip[],
  rows: readonly Stratum[],
  { period, mayPublish }: ProtectOptions,
): PeriodPart {
  const total = { period: periodOf(trips[0]?.month ?? '', period), trips };
  const inRows = new Set(rows.flatMap((row) => row.trips));
  const rest = trips.filter((trip) => !inRows.has(trip));
  const asItIs = { total, rows, givenUp: [], rest };
  if (rest.length === 0 || mayPublish(rest)) return { ...asItIs, isShown: true };
  const sorted = [...rows].sort((a, b) => effortOf(a.trips) - effortOf(b.trips));
  for (const at of sorted.keys()) {
    const givenUp = sorted.slice(0, at + 1);
    const lost = givenUp.flatMap((row) => row.trips);
    if (effortOf(lost) >= effortOf(rest)) break;
    const larger = [...rest, ...lost];
    if (mayPublish(larger)) {
      const left = rows.filter((row) => !givenUp.includes(row));
      return { total, rows: left, givenUp, rest: larger, isShown: true };
    }
  }
  return { ...asItIs, isShown: false };
}

function effortOf(trips: readonly ShareTrip[]): number {
  return trips.reduce((sum, trip) => sum + trip.effort, 0);
}
