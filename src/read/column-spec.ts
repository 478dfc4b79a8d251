import type { Unit } from './units.ts';

/** How the cells of a column are read. */
export type CellKind =
  | 'id'
  | 'word'
  | 'text'
  | 'number'
  | 'bearing'
  | 'latitude'
  | 'longitude'
  | 'clock'
  | 'date'
  | 'position'
  | 'hook-size'
  | 'choice'
  | 'yes-no';

/** One column of a log file: what it holds, and under which headers captains write it. */
export interface ColumnSpec {
  readonly name: string;
  readonly kind: CellKind;
  readonly required?: true;
  /** The unit of the column's values; headers and cells in another one are converted. */
  readonly unit?: Unit;
  /** Smallest and largest value that can be true, in the column's own unit, both included. */
  readonly range?: readonly [number, number];
  /** A count: no fractions. */
  readonly whole?: true;
  /** Other headers that mean this column and leave no doubt of its unit; words joined by `_`. */
  readonly also?: readonly string[];
  /** Headers that mean this column but do not say its unit; a unit may follow (`wind_mph`). */
  readonly bare?: readonly string[];
  /** Headers that mean this column only when a unit follows: `Line (lb)`. */
  readonly stems?: readonly string[];
}

/** Free text that any file may have. */
export const NOTES: ColumnSpec = {
  name: 'notes',
  kind: 'text',
  also: ['note', 'comment', 'comments', 'remark', 'remarks', 'memo'],
};

/** The trip a row belongs to. */
export const TRIP_ID: ColumnSpec = {
  name: 'trip_id',
  kind: 'id',
  required: true,
  also: [
    'trip',
    'trip_no',
    'trip_number',
    'trip_num',
    'trip_nr',
    'trip_ref',
    'trip_code',
    'tripid',
  ],
};

/** The gear columns that soaks and bites share. */
export const GEAR: readonly ColumnSpec[] = [
  {
    name: 'bait',
    kind: 'word',
    also: ['bait_type', 'bait_kind', 'bait_used', 'live_bait', 'bait_species'],
  },
  {
    name: 'rod',
    kind: 'word',
    also: ['rod_no', 'rod_number', 'rod_id', 'rod_name', 'reel', 'reel_no', 'outfit', 'rods'],
  },
  {
    name: 'line_type',
    kind: 'word',
    also: ['main_line', 'mainline', 'line_material', 'type_of_line', 'linetype', 'main_line_type'],
  },
  {
    name: 'line_class_lb',
    kind: 'number',
    unit: 'lb',
    range: [0.5, 500],
    bare: [
      'line_class',
      'line_test',
      'line_strength',
      'breaking_strain',
      'line_breaking_strain',
      'class',
      'test',
      'main_line_class',
    ],
    also: ['lb_test', 'pound_test'],
    stems: ['line'],
  },
  {
    name: 'hook_size',
    kind: 'hook-size',
    also: ['hook', 'hooks', 'size_of_hook', 'hook_no', 'hook_number', 'hooksize', 'hook_sz'],
  },
  {
    name: 'leader_lb',
    kind: 'number',
    unit: 'lb',
    range: [0.5, 2000],
    bare: [
      'leader',
      'leader_test',
      'leader_strength',
      'leader_class',
      'leader_breaking_strain',
      'trace',
      'trace_class',
    ],
  },
];
