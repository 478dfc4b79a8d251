import { UserError } from '../base/problem.ts';
import { cleanValue } from './clean-text.ts';
import { dateForm } from './date-form.ts';
import { dateOrderMixed, dateOrderUnknown } from './messages-times.ts';

/**
 * The order of day and month in the dates of a column; `each` where every date can be read in one
 * order only, though not all in the same.
 */
export type DateOrder = 'ymd' | 'dmy' | 'mdy' | 'each';

interface Sighting {
  readonly line: number;
  readonly text: string;
}

/** Gathers, over a whole column, which of two numbers is the day. */
export class DateOrderSurvey {
  #dayFirst: Sighting | null = null;
  #monthFirst: Sighting | null = null;
  #open: Sighting | null = null;

  add(raw: string, line: number): void {
    const text = cleanValue(raw);
    const form = dateForm(text);
    if (form?.kind !== 'numeric') return;
    const { first, second } = form;
    if (first === second) return;
    if (first > 12 && first <= 31 && second <= 12) this.#dayFirst ??= { line, text };
    else if (second > 12 && second <= 31 && first <= 12) this.#monthFirst ??= { line, text };
    else if (first <= 12 && second <= 12) this.#open ??= { line, text };
  }

  /**
   * The order of the column. The setting, where given, goes first. Throws a `UserError` (exit code
   * 3) that asks for `date_order` where dates are open and the column does not decide, or decides
   * both ways.
   */
  order(told: 'ymd' | 'dmy' | 'mdy' | null, place: { name: string; header: string }): DateOrder {
    if (told === 'dmy' || told === 'mdy') return told;
    if (told === 'ymd' && this.#dayFirst === null && this.#monthFirst === null) return told;
    if (this.#dayFirst !== null && this.#monthFirst !== null) {
      if (this.#open === null) return 'each';
      const { header, name } = place;
      const found = { name, header, dayFirst: this.#dayFirst, monthFirst: this.#monthFirst };
      throw new UserError(dateOrderMixed(found), 3);
    }
    if (this.#dayFirst !== null) return 'dmy';
    if (this.#monthFirst !== null) return 'mdy';
    if (this.#open !== null) {
      throw new UserError(dateOrderUnknown({ ...place, ...this.#open }), 3);
    }
    return 'ymd';
  }
}
