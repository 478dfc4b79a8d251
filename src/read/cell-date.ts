import { isoDate } from './calendar.ts';
import { type Cell, type CellReader, plain, repaired, unread, warned } from './cell.ts';
import { cleanValue } from './clean-text.ts';
import { dateForm, type NumericDate } from './date-form.ts';
import type { DateOrder } from './date-order.ts';
import * as say from './messages-times.ts';

const ORDER_WORDS: Readonly<Record<DateOrder, string>> = {
  ymd: 'year first',
  dmy: 'day first',
  mdy: 'month first',
  each: 'day first or month first',
};

/** Makes the reader of a date column in the order its whole column was found to have. */
export function dateReader(column: string, order: DateOrder): CellReader<string> {
  return (text) => {
    const form = dateForm(cleanValue(text));
    if (form === null) return unread(say.dateUnreadable(column, text));
    switch (form.kind) {
      case 'iso':
        return inReach(column, text, plain(form.iso));
      case 'sure': {
        const { iso, zoned } = form;
        const cell = zoned
          ? warned(iso, say.dateZoned(column, text, iso))
          : repaired(iso, say.dateRespelt(column, text, iso));
        return inReach(column, text, cell);
      }
      case 'no-year':
        return unread(say.dateWithoutYear(column, text));
      case 'no-day':
        return unread(say.dateNotInCalendar(column, text, ORDER_WORDS.ymd));
      case 'numeric': {
        const iso = isoOf(form, order);
        if (iso === null) {
          return unread(say.dateNotInCalendar(column, text, ORDER_WORDS[order]));
        }
        return inReach(column, text, repaired(iso, say.dateRespelt(column, text, iso)));
      }
    }
  };
}

function isoOf(form: NumericDate, order: DateOrder): string | null {
  const { first, second, year, yearFirst } = form;
  if (order === 'dmy') return isoDate(year, second, first);
  if (order === 'mdy') return isoDate(year, first, second);
  if (order === 'each') return isoDate(year, second, first) ?? isoDate(year, first, second);
  if (yearFirst !== null) return isoDate(yearFirst.year, yearFirst.month, yearFirst.day);
  // A column without an order holds only dates whose day and month are the same number.
  return first === second ? isoDate(year, first, second) : null;
}

/** Years before 1950 and after 2100 are slips of the pen (common practice, no source). */
function inReach(column: string, text: string, cell: Cell<string>): Cell<string> {
  const iso = cell.value ?? '';
  const isAbsurd = iso < '1950-01-01' || iso > '2100-12-31';
  return isAbsurd ? unread(say.dateAbsurd(column, text, iso)) : cell;
}
