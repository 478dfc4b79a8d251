import { zoneClock } from '../base/zone.ts';
import type { Message } from './messages-cells.ts';
import { clockSkipped, clockTwice } from './messages-checks.ts';

/** Finds clock times that a change of the clocks skipped or showed twice. */
export class ClockChanges {
  readonly #clock: ReturnType<typeof zoneClock>;
  readonly #changes = new Map<string, boolean>();

  constructor(timeZone: string) {
    this.#clock = zoneClock(timeZone);
  }

  /** What is to be said of a clock time (minutes from the date's midnight), or null. */
  check(column: string, date: string, minute: number): Message | null {
    if (!this.near(date)) return null;
    const [first, second] = this.#clock.instants(date, minute);
    if (second !== undefined) return clockTwice(column, minute, date);
    const isShown = this.#clock.hourAt(first) === Math.floor((minute % 1440) / 60);
    return isShown ? null : clockSkipped(column, minute, date);
  }

  /** Whether the clocks, put back, showed an earlier minute again after a later one of that date. */
  cameAgain(date: string, later: number, earlier: number): boolean {
    if (!this.near(date)) return false;
    const [first] = this.#clock.instants(date, later);
    const [, again] = this.#clock.instants(date, earlier);
    return again !== undefined && again >= first;
  }

  /** Whether the clocks change on a date or the day after. */
  near(date: string): boolean {
    const known = this.#changes.get(date);
    if (known !== undefined) return known;
    const [from] = this.#clock.instants(date, 0);
    const [to] = this.#clock.instants(date, 2880);
    const hasChange = to - from !== 2880;
    this.#changes.set(date, hasChange);
    return hasChange;
  }
}
