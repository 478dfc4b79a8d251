/**
 * How the clock times of one column are written, as far as single cells cannot tell: `7.30` is
 * half past seven where points part hours from minutes, and `0.5` is noon where a spreadsheet
 * wrote fractions of a day.
 */
export interface ClockStyle {
  /** A point parts hours from minutes: there is `7.30`, and no `7.75`. */
  readonly points: boolean;
  /** Fractions of a day stand in the column. */
  readonly fractions: boolean;
  /** Most times carry am or pm, so one without it leaves half the day open. */
  readonly halfDays: boolean;
}

const MERIDIEM = /[ap]\.?\s*m\b\.?/i;

/** Gathers, cell by cell, how the clock times of a column are written. */
export class ClockStyleSurvey {
  #points = 0;
  #notMinutes = 0;
  #fractions = 0;
  #marked = 0;
  #unmarked = 0;

  add(text: string): void {
    if (MERIDIEM.test(text)) {
      this.#marked++;
      return;
    }
    if (/^\d{1,2}:\d{2}/.test(text)) this.#unmarked++;
    const dotted = /^(\d{1,2})[.,](\d+)$/.exec(text);
    if (dotted === null) return;
    const hours = Number(dotted[1]);
    const decimals = dotted[2] ?? '';
    if (hours === 0 && decimals.length > 2) this.#fractions++;
    if (hours > 0 && decimals.length === 2) {
      if (Number(decimals) < 60) this.#points++;
      else this.#notMinutes++;
    }
  }

  /** What the whole column says. */
  style(): ClockStyle {
    const points = this.#points > 0 && this.#notMinutes === 0;
    return {
      points,
      fractions: this.#fractions > 0 || (this.#points === 0 && this.#notMinutes === 0),
      halfDays: this.#marked > this.#unmarked,
    };
  }
}
