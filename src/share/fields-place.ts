import { cellCode, type GridCell } from './cwp-grid.ts';
import { GEAR_CODE_NAMES, type GearCode } from './gear-codes.ts';
import type { Period } from './period.ts';
import type { SharedField } from './table-schema.ts';

/** A row that belongs to a period. */
interface Timed {
  readonly period: Period;
}

/** A row that belongs to a cell and a gear. */
interface Placed {
  readonly cell: GridCell;
  readonly gear: GearCode;
}

/** Columns that say when. */
export const PERIOD_FIELDS: readonly SharedField<Timed>[] = [
  {
    name: 'year',
    type: 'year',
    description: 'Calendar year.',
    constraints: { required: true },
    cell: ({ period }) => period.year,
  },
  {
    name: 'month',
    type: 'integer',
    description: 'First month of the period, 1 to 12.',
    constraints: { required: true, minimum: 1, maximum: 12 },
    cell: ({ period }) => period.month,
  },
  {
    name: 'months',
    type: 'integer',
    description: 'Months in the period: 1, or 3 for a quarter.',
    constraints: { required: true, enum: [1, 3] },
    cell: ({ period }) => period.months,
  },
];

/** Columns that say where and by what gear. */
export const PLACE_FIELDS: readonly SharedField<Placed>[] = [
  {
    name: 'cell_deg',
    type: 'number',
    description: 'Side of the grid cell in degrees; cells of one period never overlap.',
    constraints: { required: true, enum: [0.5, 1, 5] },
    cell: ({ cell }) => cell.sizeDeg,
  },
  {
    name: 'quadrant',
    type: 'string',
    description: 'Quadrant of the globe that the cell lies in.',
    constraints: { required: true, enum: ['NE', 'SE', 'SW', 'NW'] },
    cell: ({ cell }) => cell.quadrant,
  },
  {
    name: 'corner_lat',
    type: 'number',
    description: 'Latitude of the corner nearest 0, 0, in degrees without sign.',
    constraints: { required: true, minimum: 0, maximum: 90 },
    cell: ({ cell }) => cell.cornerLat,
  },
  {
    name: 'corner_lon',
    type: 'number',
    description: 'Longitude of the corner nearest 0, 0, in degrees without sign.',
    constraints: { required: true, minimum: 0, maximum: 180 },
    cell: ({ cell }) => cell.cornerLon,
  },
  {
    name: 'cwp_cell',
    type: 'string',
    description:
      'Cell of the FAO CWP areal grid; empty for half a degree, which the code cannot hold.',
    constraints: { pattern: '[5-9][1-4][0-9]{5}' },
    cell: ({ cell }) => cellCode(cell),
  },
  {
    name: 'gear',
    type: 'string',
    description: 'FAO ISSCFG gear.',
    constraints: { required: true, enum: [...GEAR_CODE_NAMES] },
    cell: ({ gear }) => gear,
  },
];

/** Columns that together name one row of period, cell and gear. */
export const STRATUM_KEY = [
  'year',
  'month',
  'months',
  'cell_deg',
  'quadrant',
  'corner_lat',
  'corner_lon',
  'gear',
] as const;
