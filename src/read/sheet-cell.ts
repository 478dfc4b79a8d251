import type { CellKind } from './column-spec.ts';

/** A date or time cell of a workbook; `date` is null where it holds a time of day alone. */
export interface DateCell {
  /** `2024-03-05`, or null. */
  readonly date: string | null;
  /** `07:19:00`. */
  readonly clock: string;
}

/** A cell of a sheet: its text, or a date whose text depends on the column it stands in. */
export type SheetCell = string | DateCell;

/** What workbooks hold for "no day": serial day 0 of the two calendars they may count in. */
const DAY_ZERO = ['1899-12-30', '1904-01-01'];

/**
 * The cell that a value of a workbook stands for: numbers in the 15 digits that spreadsheets show,
 * booleans as yes and no, dates to the nearest second, nothing as ''.
 */
export function sheetCell(value: unknown): SheetCell {
  if (value === null || value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(Number(value.toPrecision(15)));
  if (value instanceof Date) return dateCell(value);
  return String(value);
}

/** The text of a cell as a CSV file would have it, in a column of the kind given. */
export function sheetText(cell: SheetCell, kind: CellKind | null): string {
  if (typeof cell === 'string') return cell;
  const { date, clock } = cell;
  const short = clock.endsWith(':00') ? clock.slice(0, 5) : clock;
  if (kind === 'clock') return clock.slice(0, 5);
  if (date === null) return short;
  return kind === 'date' || clock === '00:00:00' ? date : `${date} ${short}`;
}

function dateCell(value: Date): SheetCell {
  // Fractions of a day miss the whole second by less than a millisecond.
  const instant = new Date(Math.round(value.getTime() / 1000) * 1000);
  if (Number.isNaN(instant.getTime())) return '';
  const [date = '', time = ''] = instant.toISOString().split('T');
  return { date: DAY_ZERO.includes(date) ? null : date, clock: time.slice(0, 8) };
}
