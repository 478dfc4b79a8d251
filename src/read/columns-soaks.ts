import { type ColumnSpec, GEAR, NOTES, TRIP_ID } from './column-spec.ts';

/** Where in the spread a line fishes. */
export const POSITION: ColumnSpec = {
  name: 'position',
  kind: 'position',
  also: ['pos', 'line_position', 'rod_position', 'spread_position', 'spread', 'posn', 'station'],
};

/** The columns of `soaks.csv`. */
export const SOAK_COLUMNS: readonly ColumnSpec[] = [
  TRIP_ID,
  { ...POSITION, required: true },
  ...GEAR,
  {
    name: 'hook_model',
    kind: 'word',
    also: ['hook_type', 'hook_style', 'hook_pattern', 'hook_make', 'type_of_hook', 'model_of_hook'],
  },
  {
    name: 'time_in',
    kind: 'clock',
    also: ['in', 'in_time', 'line_in', 'start', 'start_time', 'time_set', 'deployed', 'bait_in'],
  },
  {
    name: 'time_out',
    kind: 'clock',
    also: ['out', 'out_time', 'line_out', 'end', 'end_time', 'retrieved', 'bait_out', 'time_up'],
  },
  {
    name: 'hours',
    kind: 'number',
    unit: 'h',
    range: [0, 240],
    also: ['hrs', 'soak_hours', 'hours_fished', 'hours_soaked', 'line_hours', 'soak_hrs'],
    bare: ['soak', 'soak_time', 'duration', 'soak_duration', 'time_fished'],
  },
  {
    name: 'baits_used',
    kind: 'number',
    whole: true,
    range: [0, 100000],
    also: [
      'no_of_baits',
      'bait_count',
      'number_of_baits',
      'baits_count',
      'no_baits',
      'num_baits',
      'qty',
      'used',
    ],
  },
  NOTES,
];
