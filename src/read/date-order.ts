import { UserError } from '../base/problem.ts';
import { isoDate } from './calendar.ts';
import { cleanValue } from './clean-text.ts';
import { dateForm, type NumericDate } from './date-form.ts';
import { dateOrderMixed, dateOrderUnknown } from './messages-times.ts';

/**
 * The order of day and month in the dates of a column; `each` where every date can be read in one
 * order only, though not all in the same.
 */
export type DateOrder = 'ymd' | 'dmy' | 'mdy' | 'each';

/** Years that a column may span before its last number is taken for a day rather than a year. */
const MOST_YEARS = 3;

interface Sighting {
  readonly line: number;
  readonly text: string;
}

/** Gathers, over a whole column, which of two numbers is the day. */
export class DateOrderSurvey {
  #dayFirst: Sighting | null = null;
  #monthFirst: Sighting | null = null;
  #open: Sighting | null = null;
  readonly #lastYears = new Span();
  readonly #firstYears = new Span();
  #mayBeYearFirst = true;

  add(raw: string, line: number): void {
    const text = cleanValue(raw);
    const form = dateForm(text);
    if (form?.kind !== 'numeric') return;
    this.#addYears(form);
    const { first, second } = form;
    if (first === second) return;
    if (first > 12 && first <= 31 && second <= 12) this.#dayFirst ??= { line, text };
    else if (second > 12 && second <= 31 && first <= 12) this.#monthFirst ??= { line, text };
    else if (first <= 12 && second <= 12) this.#open ??= { line, text };
  }

  /**
   * The order of the column. The setting, where given, goes first; a format in the header serves
   * where no date decides. Throws a `UserError` (exit code 3) that asks for `date_order` where dates
   * are open and nothing decides, or the dates decide both ways.
   */
  order(told: 'ymd' | 'dmy' | 'mdy' | null, place: { name: string; header: string }): DateOrder {
    if (told === 'dmy' || told === 'mdy') return told;
    if (this.#isYearFirst(told)) return 'ymd';
    if (this.#dayFirst !== null && this.#monthFirst !== null) {
      if (this.#open === null) return 'each';
      const { header, name } = place;
      const found = { name, header, dayFirst: this.#dayFirst, monthFirst: this.#monthFirst };
      throw new UserError(dateOrderMixed(found), 3);
    }
    if (this.#dayFirst !== null) return 'dmy';
    if (this.#monthFirst !== null) return 'mdy';
    if (this.#open === null) return 'ymd';
    const byHeader = orderInHeader(place.header);
    if (byHeader !== null) return byHeader;
    throw new UserError(dateOrderUnknown({ ...place, ...this.#open }), 3);
  }

  #addYears({ year, yearFirst }: NumericDate): void {
    this.#lastYears.add(year);
    if (yearFirst === null) this.#mayBeYearFirst = false;
    else {
      this.#firstYears.add(yearFirst.year);
      const iso = isoDate(yearFirst.year, yearFirst.month, yearFirst.day);
      this.#mayBeYearFirst &&= iso !== null;
    }
  }

  /**
   * `24-03-05`: the year stands last unless told otherwise; but where that would scatter a log over
   * many years, and the first number is nearly the same throughout, the first number is the year.
   */
  #isYearFirst(told: 'ymd' | null): boolean {
    if (!this.#mayBeYearFirst || this.#firstYears.isEmpty) return false;
    if (told === 'ymd') return true;
    return this.#firstYears.width < MOST_YEARS && this.#lastYears.width > MOST_YEARS;
  }
}

/** A date format in a header, such as `Date (dd/mm/yyyy)`. */
export const DATE_FORMAT = /\(?\b([dmy])\1{0,3}[-/. ]([dmy])\2{0,3}[-/. ]([dmy])\3{0,3}\b\)?/i;

function orderInHeader(header: string): 'dmy' | 'mdy' | null {
  const format = DATE_FORMAT.exec(header);
  const order = format === null ? '' : format.slice(1, 4).join('').toLowerCase();
  return order === 'dmy' || order === 'mdy' ? order : null;
}

/** The smallest and the largest of some numbers. */
class Span {
  #least = Number.POSITIVE_INFINITY;
  #most = Number.NEGATIVE_INFINITY;

  add(value: number): void {
    this.#least = Math.min(this.#least, value);
    this.#most = Math.max(this.#most, value);
  }

  get isEmpty(): boolean {
    return this.#most < this.#least;
  }

  get width(): number {
    return this.isEmpty ? 0 : this.#most - this.#least;
  }
}
