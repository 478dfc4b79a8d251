import { Temporal } from 'temporal-polyfill';

/** Minutes since 1970-01-01 00:00 UTC. */
export type EpochMinute = number;

/** Turns the boat's wall clock into real time, for one time zone. */
export interface ZoneClock {
  /**
   * The instants at which the wall clock shows `minute` (after midnight; 1440 and more run into the
   * following days) on a date: one on nearly every day, two in the hour that is lived twice when
   * clocks go back. A time that is skipped when clocks go forward is read with the offset before.
   */
  instants(date: string, minute: number): readonly [EpochMinute, ...EpochMinute[]];
  /** Hour of the wall clock, 0 to 23, at an instant. */
  hourAt(instant: EpochMinute): number;
  /** The instants in [from, to) at which a new clock hour begins, in order. */
  hourStarts(from: EpochMinute, to: EpochMinute): EpochMinute[];
}

const MINUTE_MS = 60_000;
const DAY_MINUTES = 1440;

/** Days since 1970-01-01 of an ISO date; the proleptic Gregorian calendar, no zone. */
export function dayNumber(date: string): number {
  return Math.round(Date.parse(`${date}T00:00:00Z`) / 86_400_000);
}

/** ISO date of a day number; the inverse of {@link dayNumber}. */
export function dateOfDay(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10);
}

/** Whether a text is a day of the calendar written year-month-day; 2026-02-30 is not. */
export function isIsoDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = dayNumber(text);
  return !Number.isNaN(day) && dateOfDay(day) === text;
}

/** The day after an ISO date. */
export function nextDate(date: string): string {
  return dateOfDay(dayNumber(date) + 1);
}

/**
 * A clock for one IANA time zone. Offsets are looked up once a day and kept, so that a million
 * times cost no more than the days they fall on.
 * @throws RangeError when the zone is unknown; settings are checked before.
 */
export function zoneClock(timeZone: string): ZoneClock {
  const offsets = new Map<number, number>();
  /** Minutes ahead of UTC at the beginning of a UTC day. */
  const offsetAtDay = (day: number): number => {
    const known = offsets.get(day);
    if (known !== undefined) return known;
    const offset = offsetAt(day * DAY_MINUTES, timeZone);
    offsets.set(day, offset);
    return offset;
  };
  const offsetOf = (instant: EpochMinute): number => {
    const day = Math.floor(instant / DAY_MINUTES);
    const before = offsetAtDay(day);
    return before === offsetAtDay(day + 1) ? before : offsetAt(instant, timeZone);
  };
  return {
    instants(date, minute) {
      const local = dayNumber(date) * DAY_MINUTES + minute;
      const day = Math.floor(local / DAY_MINUTES);
      const early = offsetAtDay(day - 1);
      const late = offsetAtDay(day + 2);
      if (early === late) return [local - early];
      const fitting = [local - early, local - late].filter((at) => at + offsetOf(at) === local);
      const sorted = [...new Set(fitting)].sort((a, b) => a - b);
      const [first, ...rest] = sorted;
      return first === undefined ? [local - early] : [first, ...rest];
    },
    hourAt(instant) {
      const minute = mod(instant + offsetOf(instant), DAY_MINUTES);
      return Math.floor(minute / 60);
    },
    hourStarts(from, to) {
      const starts: EpochMinute[] = [];
      let at = from + 60 - mod(from + offsetOf(from), 60);
      while (at < to) {
        starts.push(at);
        at += 60 - mod(at + offsetOf(at), 60);
      }
      return starts;
    },
  };
}

function offsetAt(instant: EpochMinute, timeZone: string): number {
  const zoned = Temporal.Instant.fromEpochMilliseconds(instant * MINUTE_MS).toZonedDateTimeISO(
    timeZone,
  );
  return Math.round(zoned.offsetNanoseconds / 60e9);
}

function mod(a: number, n: number): number {
  return ((a % n) + n) % n;
}
