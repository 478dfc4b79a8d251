import type { LOG_FILES } from '../../src/base/files.ts';
import type { Row } from './log-rows.ts';

type Sheet = (typeof LOG_FILES)[number];

/** The columns of each file, in the order this crew's sheets have them. */
export const SHEETS: Readonly<Record<Sheet, readonly string[]>> = {
  'trips.csv': [
    ...['trip_id', 'date', 'lines_in', 'lines_out', 'hours_fished', 'lines_fished', 'vessel'],
    ...['trip_kind', 'area', 'lat', 'lon', 'depth_m', 'wind_kn', 'wind_from_deg', 'wave_m'],
    ...['current_kn', 'current_to_deg', 'water_temp_c', 'clarity', 'sky', 'anglers', 'notes'],
  ],
  'soaks.csv': [
    ...['trip_id', 'position', 'bait', 'rod', 'line_type', 'line_class_lb', 'hook_size'],
    ...['hook_model', 'leader_lb', 'time_in', 'time_out', 'hours', 'baits_used', 'notes'],
  ],
  'bites.csv': [
    ...['trip_id', 'bite_id', 'time', 'outcome', 'species', 'position', 'bait', 'rod', 'line_type'],
    ...['line_class_lb', 'hook_size', 'leader_lb', 'lost_to', 'fight_min', 'drop_back_s'],
    ...['hooked_in', 'release_condition', 'length_cm', 'weight_kg', 'angler', 'notes'],
  ],
  'spools.csv': ['rod', 'date', 'line_type', 'line_class_lb', 'cost', 'reason', 'notes'],
  'bait-buys.csv': [
    ...['date', 'bait', 'count', 'unit_cost', 'died', 'ran_out', 'trip_id', 'source', 'notes'],
  ],
};

/** One CSV file (RFC 4180, but LF at line ends); a column that a row does not have is an empty cell. */
export function csvText(file: Sheet, rows: readonly Row[]): string {
  const columns = SHEETS[file];
  const lines = rows.map((row) => columns.map((column) => cell(row[column] ?? '')).join(','));
  return `${[columns.join(','), ...lines].join('\n')}\n`;
}

function cell(text: string): string {
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
