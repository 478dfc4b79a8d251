import type { ComparisonPlan } from '../decide/plan-answer.ts';
import { type CsvValue, csvText } from './csv.ts';
import type { TextFile } from './new-files.ts';

/** The file that `compare --planned` reads back. */
export const SCHEDULE_FILE = 'schedule.csv';

/**
 * The schedule as CSV, one row a line of a trip: what each position is to fish stands under the
 * factor's own name. `date` and `trip_id` are empty, for the crew to fill in: one row of a trip is
 * enough.
 */
export function scheduleCsv({ schedule, factor, basis }: ComparisonPlan): TextFile {
  const places = basis.design === 'sides' ? ['position', 'side', 'reach'] : [];
  const header = ['trip_number', 'block', ...places, factor, 'date', 'trip_id'];
  const rows = schedule.flatMap(({ tripNumber, block, lines }) =>
    lines.map(({ position, side, reach, level }): CsvValue[] => {
      const place = basis.design === 'sides' ? [position, side, reach] : [];
      return [tripNumber, block, ...place, level, null, null];
    }),
  );
  return { name: SCHEDULE_FILE, text: csvText(header, rows) };
}
