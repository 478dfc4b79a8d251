import { type CellReader, plain, repaired, unread } from './cell.ts';
import { cleanValue } from './clean-text.ts';
import type { ClockStyle } from './clock-style.ts';
import * as say from './messages-times.ts';

const MINUTES_A_DAY = 1440;
const ROUGHLY = /^(?:~|≈|c\.|ca\.?|approx\.?|about)\s*(?=\d)/;

/**
 * Makes the reader of a clock column; values are minutes after midnight, 0 to 1439. It takes
 * `07:30`, `7:30 pm`, `7pm`, `0730`, `730`, `1930 hrs`, `7h30`, `7.30`, fractions of a day and
 * date-times. Seconds are cut off. `24:00` is the midnight that ends the day.
 */
export function clockReader(column: string, style: ClockStyle): CellReader<number> {
  return (text) => {
    const bare = withoutDate(cleanValue(text).toLowerCase().replace(ROUGHLY, ''));
    const usual = /^([01]?\d|2[0-3]):([0-5]\d)(?::[0-5]\d(?:\.\d+)?)?$/.exec(bare);
    if (usual !== null) {
      if (style.halfDays && Number(usual[1]) >= 1 && Number(usual[1]) <= 12) {
        return unread(say.clockHalfUnsaid(column, text));
      }
      const minutes = Number(usual[1]) * 60 + Number(usual[2]);
      return bare === text.trim()
        ? plain(minutes)
        : repaired(minutes, say.clockRespelt(column, text));
    }
    const minutes =
      wordClock(bare) ?? twelveHourClock(bare) ?? runTogether(bare) ?? byPoint(bare, style);
    if (minutes === 'unsure') return unread(say.clockTwoWays(column, text));
    if (minutes === null) return unread(say.clockUnreadable(column, text));
    return repaired(minutes % MINUTES_A_DAY, say.clockRespelt(column, text));
  };
}

/** The clock time alone of a date-time; the trip says the day. */
function withoutDate(text: string): string {
  const dated =
    /^(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.][a-z\d]{1,9}[-/.](?:\d{4}|\d{2}))(?:t|[ ,]+)(\d.*)$/.exec(
      text,
    );
  return dated?.[1] ?? text;
}

function wordClock(text: string): number | null {
  if (text === 'noon' || text === 'midday' || text === '12 noon') return 720;
  if (text === 'midnight' || text === '12 midnight') return 0;
  return null;
}

/** `7:30 pm`, `7.30pm`, `7 p.m.`, `12:15:00 am`. */
function twelveHourClock(text: string): number | null {
  const match = /^(\d{1,2})(?:[:.h]?([0-5]\d))?(?::[0-5]\d)?\s*([ap])\.?\s*m?\.?$/.exec(text);
  if (match === null) return null;
  const hour = Number(match[1]);
  const isAfternoon = match[3] === 'p';
  const minutes = Number(match[2] ?? 0);
  if (hour > 12) return isAfternoon && hour < 24 ? hour * 60 + minutes : null;
  if (hour === 0) return isAfternoon ? null : minutes;
  return ((hour % 12) + (isAfternoon ? 12 : 0)) * 60 + minutes;
}

/** `0730`, `730`, `1930 hrs`, `7h30`, `7h`, `7`, `24:00`. */
function runTogether(text: string): number | null {
  const bare = text.replace(/\s*(?:hrs?|hours?|uhr|h|min)\.?$/, '').trim();
  const pointed = /^(\d{1,2})\.([0-5]\d)\.[0-5]\d$/.exec(bare);
  if (pointed !== null) return ofDay(Number(pointed[1]), Number(pointed[2]));
  const match = /^(\d{1,2})(?:\s*[h:]\s*)?([0-5]\d)(?::[0-5]\d)?$/.exec(bare);
  if (match !== null) return ofDay(Number(match[1]), Number(match[2]));
  return /^\d{1,2}$/.test(bare) ? ofDay(Number(bare), 0) : null;
}

function ofDay(hours: number, minutes: number): number | null {
  if (hours === 24 && minutes === 0) return 0;
  return hours < 24 ? hours * 60 + minutes : null;
}

/** `7.30` as a clock, `0.3125` as a fraction of the day, `45357.3125` as a serial date and time. */
function byPoint(text: string, style: ClockStyle): number | 'unsure' | null {
  const match = /^(\d{0,5})[.,](\d{1,17})(?:\s*(?:hrs?|uhr|h))?$/.exec(text);
  if (match === null) return null;
  const whole = Number(match[1] || 0);
  const decimals = match[2] ?? '';
  const fraction = Math.round(Number(`0.${decimals}`) * MINUTES_A_DAY);
  if (whole > 24) return whole > 20000 ? fraction : null;
  if (whole === 0 && (decimals.length > 2 || !style.points)) {
    return style.fractions ? fraction : 'unsure';
  }
  if (whole === 0 && style.fractions) return 'unsure';
  if (decimals.length === 2) {
    return Number(decimals) < 60 && (style.points || whole > 0)
      ? pointOrUnsure(whole, Number(decimals), style)
      : 'unsure';
  }
  // A spreadsheet drops the last zero of 7.30; among times with points that is sure enough.
  return decimals.length === 1 && style.points && Number(decimals) < 6
    ? ofDay(whole, Number(decimals) * 10)
    : 'unsure';
}

function pointOrUnsure(hours: number, minutes: number, style: ClockStyle) {
  return style.points ? ofDay(hours, minutes) : 'unsure';
}
