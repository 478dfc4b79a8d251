import { compare } from '../tidy/tidy-trips.ts';
import { catchFields } from './cell-rows.ts';
import type { GridCell } from './cwp-grid.ts';
import { count } from './fields-figures.ts';
import { PLACE_FIELDS } from './fields-place.ts';
import type { GearCode } from './gear-codes.ts';
import { pseudonym } from './pseudonym.ts';
import { type Fates, NO_FATES, type ShareTrip } from './share-trip.ts';
import type { SharedField, SharedTable } from './table-schema.ts';
import {
  type TripDetail,
  tripCell,
  WIND_GROUPS,
  type WindGroup,
  windGroup,
} from './trip-classes.ts';
import type { TripTier } from './trip-tier.ts';

/** One trip as a researcher gets it. */
export interface TripShareRow {
  readonly trip: string;
  readonly vessel: string;
  readonly year: number;
  /** null where the week is told. */
  readonly month: number | null;
  readonly months: 1 | 3 | null;
  readonly week: number | null;
  readonly cell: GridCell;
  readonly gear: GearCode;
  readonly wind: WindGroup | null;
  /** Whole hours. */
  readonly hours: number | null;
  readonly lineHours: number | null;
  readonly missed: number;
  readonly catches: ReadonlyMap<string, Fates>;
}

/** The trips of a tier under pseudonyms, in the order of those, which is no order of time. */
export function tripRows(
  { classes, detail }: TripTier,
  gear: GearCode,
  key: Buffer,
): { readonly rows: readonly TripShareRow[]; readonly species: readonly string[] } {
  const trips = classes.flatMap((one) => one.trips);
  const species = [...new Set(trips.flatMap((trip) => [...trip.catches.keys()]))].sort();
  const rows = trips.map((trip): TripShareRow => {
    const catches = species.map((code) => [code, trip.catches.get(code) ?? NO_FATES] as const);
    return {
      trip: pseudonym(key, 'trip', trip.trip_id),
      vessel: pseudonym(key, 'vessel', trip.vessel),
      ...timeOf(trip, detail),
      cell: tripCell(trip, detail.gridDeg),
      gear,
      wind: detail.withWind ? windGroup(trip.windForce) : null,
      hours: trip.hours === null ? null : Math.round(trip.hours),
      lineHours: trip.lineHours === null ? null : Math.round(trip.lineHours),
      missed: trip.missed,
      catches: new Map(catches),
    };
  });
  return { rows: rows.sort((a, b) => compare(a.trip, b.trip)), species };
}

function timeOf(trip: ShareTrip, { time }: TripDetail) {
  if (time === 'week') {
    const [year, week] = trip.week.split('-W').map(Number);
    return { year: year ?? 0, week: week ?? 0, month: null, months: null };
  }
  const [year = 0, month = 1] = trip.month.split('-').map(Number);
  if (time === 'month') return { year, month, months: 1 as const, week: null };
  return { year, month: 3 * Math.floor((month - 1) / 3) + 1, months: 3 as const, week: null };
}

/** The table of trips. */
export function tripsTable(rows: readonly TripShareRow[]): SharedTable<TripShareRow> {
  return {
    name: 'trips',
    title: 'Trips under pseudonyms',
    description: 'One row a trip, in no order of time; hours are whole hours.',
    primaryKey: ['trip'],
    fields: [
      pseudonymField('trip', 'The trip, by a pseudonym that only the owner can undo.'),
      pseudonymField('vessel', 'The vessel, likewise.'),
      ...TIME_FIELDS,
      ...PLACE_FIELDS,
      {
        name: 'wind',
        type: 'string',
        description: 'Wind of the trip by Beaufort force; empty: not told.',
        constraints: { enum: [...WIND_GROUPS] },
        cell: (row) => row.wind,
      },
      wholeHours('hours', 'Hours between lines in and lines out.', (row) => row.hours),
      wholeHours(
        'line_hours',
        'Hours of one line fishing, over all lines.',
        (row) => row.lineHours,
      ),
      count('missed', 'Bites on which the hook never came tight.', (row) => row.missed),
    ],
    rows,
  };
}

/** The table of fish by trip: every species of the package for every trip, zeros too. */
export function tripCatchTable(rows: readonly TripShareRow[]) {
  const perSpecies = rows.flatMap(({ trip, catches }) =>
    [...catches].map(([code, fates]) => ({ trip, code, fates })),
  );
  const table: SharedTable<(typeof perSpecies)[number]> = {
    name: 'catch',
    title: 'Hooked fish by trip, species and fate',
    description: 'Every species of the package for every trip, zeros included.',
    primaryKey: ['trip', 'species'],
    refersTo: { table: 'trips', fields: ['trip'] },
    fields: [pseudonymField('trip', 'The trip.'), ...catchFields<(typeof perSpecies)[number]>()],
    rows: perSpecies,
  };
  return table;
}

const TIME_FIELDS: readonly SharedField<TripShareRow>[] = [
  {
    name: 'year',
    type: 'year',
    description: 'Calendar year; of the week, where the week is given.',
    constraints: { required: true },
    cell: (row) => row.year,
  },
  {
    name: 'month',
    type: 'integer',
    description: 'First month of the period; empty where the week is given.',
    constraints: { minimum: 1, maximum: 12 },
    cell: (row) => row.month,
  },
  {
    name: 'months',
    type: 'integer',
    description: 'Months in the period; empty where the week is given.',
    constraints: { enum: [1, 3] },
    cell: (row) => row.months,
  },
  {
    name: 'week',
    type: 'integer',
    description: 'ISO 8601 week; empty where the month is given.',
    constraints: { minimum: 1, maximum: 53 },
    cell: (row) => row.week,
  },
];

function pseudonymField<Row extends Readonly<Record<Name, string>>, Name extends string>(
  name: Name,
  description: string,
): SharedField<Row> {
  const constraints = { required: true, pattern: '[0-9a-f]{24}' };
  return { name, type: 'string', description, constraints, cell: (row) => row[name] };
}

function wholeHours(
  name: string,
  description: string,
  cell: (row: TripShareRow) => number | null,
): SharedField<TripShareRow> {
  const text = `${description} Whole hours; empty: not recorded.`;
  return { name, type: 'integer', description: text, constraints: { minimum: 0 }, cell };
}
