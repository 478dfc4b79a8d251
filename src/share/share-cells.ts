import type { TidySeason } from '../tidy/tidy-season.ts';
import { exposedGroups, hiddenGroups } from './audit-subtraction.ts';
import { cellRows } from './cell-rows.ts';
import { type EffortSplit, splitByEffort } from './effort-basis.ts';
import { type MergedCells, mergeCells, type Stratum } from './merge-cells.ts';
import type { PackageAccount } from './package-account.ts';
import { periodText } from './period.ts';
import { type ProtectedTotals, protectTotals } from './protect-totals.ts';
import type { ShareChoices } from './share-options.ts';
import type { ShareTrip } from './share-trip.ts';
import { sharedRates } from './shared-rates.ts';
import { mayPublish, vesselCount } from './thresholds.ts';
import type { TierResult } from './tier-result.ts';
import { totalRows } from './total-rows.ts';

/** Trips summed by period and cell, merged and suppressed until every sum may be shown. */
export function shareCells(
  season: TidySeason,
  trips: readonly ShareTrip[],
  { choices, key }: { readonly choices: ShareChoices; readonly key: Buffer },
): TierResult {
  const { thresholds, gridDeg, period, noise } = choices;
  const mayShow = (some: readonly ShareTrip[]) => mayPublish(some, thresholds);
  const effort = splitByEffort(trips);
  const merged = mergeCells(effort.withEffort, { gridDeg, period, mayPublish: mayShow });
  const tables = withoutTotals(
    noise !== null,
    protectTotals(trips, merged, { period, mayPublish: mayShow }),
  );
  refuseExposed(merged, tables, { without: effort.without, ...choices });
  const shown = tables.rows.flatMap((row) => row.trips);
  const { rows, species } = cellRows(tables.rows, choices, key);
  const rests = tables.rests;
  return {
    content: { tier: 'cells', rows, totals: totalRows(tables.totals) },
    basis: effort.basis,
    rates: noise === null ? sharedRates(season, shown, effort.basis) : [],
    shown,
    species,
    groups: [...tables.rows.map((row) => row.trips), ...rests],
    leastTrips: thresholds.minTrips,
    account: accountOf(trips, { merged, tables }),
    hidden: {
      trips: trips.length - shown.length,
      squares: merged.suppressed.map(squareWords),
      givenUp: tables.givenUp.map(squareWords),
      unplaced: merged.unplaced.length,
      withoutEffort: effort.without.length,
      totalsWithheld: tables.withheld,
    },
  };
}

/** Totals without noise beside rows with it would give the noise away. */
function withoutTotals(isNoisy: boolean, tables: ProtectedTotals): ProtectedTotals {
  if (!isNoisy) return tables;
  return { ...tables, totals: [], withheld: tables.totals.length + tables.withheld, rests: [] };
}

function accountOf(
  trips: readonly ShareTrip[],
  found: {
    readonly merged: MergedCells;
    readonly tables: ProtectedTotals;
  },
): PackageAccount {
  const { merged, tables } = found;
  const { rows, rests } = tables;
  const shown = new Set(rows.flatMap((row) => row.trips));
  const left = trips.filter((trip) => !shown.has(trip));
  const [first, last] = [rows[0], rows.at(-1)];
  const shownRows = new Set(rows);
  return {
    trips: shown.size,
    vessels: vesselCount([...shown]),
    span:
      first === undefined || last === undefined
        ? null
        : [periodText(first.period), periodText(last.period)],
    smallest: {
      trips: Math.min(...rows.map((row) => row.trips.length)),
      vessels: Math.min(...rows.map((row) => vesselCount(row.trips))),
    },
    leftOut:
      left.length === 0
        ? { kind: 'none' }
        : tables.totals.some(({ period }) => period === null)
          ? { kind: 'trips', trips: left.length }
          : { kind: 'untold' },
    cells: {
      merged: merged.mergedRows.filter((row) => shownRows.has(row)).length,
      totals: tables.totals.length,
      totalsWithheld: tables.withheld,
      smallestRest: rests.length === 0 ? null : Math.min(...rests.map((rest) => rest.length)),
    },
    classes: null,
  };
}

/** The subtracting reader is played once more on the finished tables; that nothing falls out is our part. */
function refuseExposed(
  merged: MergedCells,
  tables: ProtectedTotals,
  { without, period, thresholds }: ShareChoices & Pick<EffortSplit, 'without'>,
): void {
  const outside = [...merged.unplaced, ...without];
  const hidden = hiddenGroups(merged.suppressed, tables, { outside, period });
  const exposed = exposedGroups(hidden, tables, (some) => mayPublish(some, thresholds));
  if (exposed.length > 0) {
    throw new Error(`${exposed.length} groups follow from the totals by subtraction.`);
  }
}

function squareWords({ period, cell, trips }: Stratum) {
  return {
    period: periodText(period),
    cell: `${cell.sizeDeg}° ${cell.quadrant} ${cell.cornerLat} ${cell.cornerLon}`,
    trips: trips.length,
    vessels: vesselCount(trips),
  };
}
