import { groupBy } from '../base/group-by.ts';
import { compare } from '../tidy/tidy-trips.ts';
import { cellAt, cellKey, GRID_SIZES, type GridCell, type GridSize } from './cwp-grid.ts';
import { type Period, type PeriodKind, periodOf, periodText } from './period.ts';
import type { ShareTrip } from './share-trip.ts';

/** The trips of one period in one cell. */
export interface Stratum {
  readonly period: Period;
  readonly cell: GridCell;
  readonly trips: readonly ShareTrip[];
}

/** Strata that may be shown, in order of period and cell, and what became of the others. */
export interface MergedCells {
  readonly released: readonly Stratum[];
  /** Too small even as the largest cell. */
  readonly suppressed: readonly Stratum[];
  /** Those released whose cell is larger than was asked for. */
  readonly mergedRows: readonly Stratum[];
  /** Trips whose place is not recorded. */
  readonly unplaced: readonly ShareTrip[];
}

/** The finest cell and period to give, and what may be shown. */
export interface MergeOptions {
  readonly gridDeg: GridSize;
  readonly period: PeriodKind;
  readonly mayPublish: (trips: readonly ShareTrip[]) => boolean;
}

/** No regional body takes catch and effort by larger cells (methods: 1° and 5° are asked for). */
const LARGEST: GridSize = 5;

/**
 * Trips by period and cell. Where one cell of a larger one holds too little to be shown, the whole
 * larger cell is given as one row of that period, so that rows never overlap and none is what is
 * left of another; where even the largest holds too little, it is left out.
 */
export function mergeCells(trips: readonly ShareTrip[], options: MergeOptions): MergedCells {
  const { gridDeg, period, mayPublish } = options;
  const sizes = GRID_SIZES.filter((size) => size >= gridDeg && size <= Math.max(gridDeg, LARGEST));
  const [largest = gridDeg, ...finer] = [...sizes].reverse();
  const released: Stratum[] = [];
  const suppressed: Stratum[] = [];
  for (const ofPeriod of groupBy(trips.filter(isPlaced), (trip) =>
    periodKey(trip, period),
  ).values()) {
    for (const square of byCell(ofPeriod, largest, period)) {
      if (mayPublish(square.trips)) released.push(...divided(square, finer, options));
      else suppressed.push(square);
    }
  }
  return {
    released: released.sort(byPeriodAndCell),
    suppressed: suppressed.sort(byPeriodAndCell),
    mergedRows: released.filter(({ cell }) => cell.sizeDeg > gridDeg),
    unplaced: trips.filter((trip) => !isPlaced(trip)),
  };
}

/** The stratum in its smaller cells if every one of them may be shown, and so on downwards. */
function divided(
  whole: Stratum,
  [size, ...finer]: readonly GridSize[],
  options: MergeOptions,
): Stratum[] {
  if (size === undefined) return [whole];
  const parts = byCell(whole.trips, size, options.period);
  const mayAll = parts.every((part) => options.mayPublish(part.trips));
  return mayAll ? parts.flatMap((part) => divided(part, finer, options)) : [whole];
}

/** Trips of one period by cell of one size. */
function byCell(trips: readonly ShareTrip[], size: GridSize, kind: PeriodKind): Stratum[] {
  const cellOf = (trip: ShareTrip) => cellAt(trip.lat ?? 0, trip.lon ?? 0, size);
  return [...groupBy(trips, (trip) => cellKey(cellOf(trip))).values()].flatMap((own) => {
    const [first] = own;
    if (first === undefined) return [];
    return [{ period: periodOf(first.month, kind), cell: cellOf(first), trips: own }];
  });
}

function isPlaced(trip: ShareTrip): boolean {
  return trip.lat !== null && trip.lon !== null;
}

function periodKey(trip: ShareTrip, kind: PeriodKind): string {
  return periodText(periodOf(trip.month, kind));
}

function byPeriodAndCell(a: Stratum, b: Stratum): number {
  const order = compare(periodText(a.period), periodText(b.period));
  return order || compare(placeKey(a.cell), placeKey(b.cell));
}

/** Corners padded, so that text order is the order of the degrees. */
function placeKey({ quadrant, cornerLat, cornerLon, sizeDeg }: GridCell): string {
  const padded = (corner: number) => corner.toFixed(1).padStart(5, '0');
  return `${quadrant}${padded(cornerLat)}${padded(cornerLon)}${sizeDeg}`;
}
