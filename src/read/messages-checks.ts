import type { Message } from './messages-cells.ts';
import type { TripRow } from './rows.ts';

/** `07:30`, and `01:15 of the next day` for minutes past midnight. */
export function clockText(minute: number): string {
  const ofDay = ((minute % 1440) + 1440) % 1440;
  const text = `${String(Math.floor(ofDay / 60)).padStart(2, '0')}:${String(ofDay % 60).padStart(2, '0')}`;
  return minute >= 1440 ? `${text} of the next day` : text;
}

/** Lines in and lines out show the same minute. */
export function tripOfNoLength(): Message {
  return {
    code: 'trip-of-no-length',
    text: 'lines_in and lines_out are the same minute: no hours, or a whole day. lines_out was not used.',
    remedy: 'Correct one of the two times.',
  };
}

/** Lines out before lines in, and a very long night between them. */
export function tripVeryLong(out: number, hours: number): Message {
  return {
    code: 'trip-very-long',
    text: `lines_out ${clockText(out)} is before lines_in, so the trip ran ${round(hours)} hours into the next day.`,
    remedy: `If that is too long, correct the times${afternoon(out)}.`,
  };
}

/** The clock and the logged hours of a trip or soak tell different lengths. */
export function hoursDisagree(column: string, logged: number, byClock: number): Message {
  return {
    code: 'hours-disagree',
    text: `${column} says ${round(logged)}, the clock times ${round(byClock)} hours; the clock times were used.`,
    remedy: `Correct whichever is wrong; ${column} is only needed where the times are missing.`,
  };
}

/** A trip far away from every other one in time. */
export function dateFarOff(date: string, nearest: string): Message {
  return {
    code: 'date-far-off',
    text: `${date} lies over a year away from every other trip (the nearest is ${nearest}).`,
    remedy: 'Check the year of this date.',
  };
}

/** A clock time that the clock change skipped. */
export function clockSkipped(column: string, minute: number, date: string): Message {
  return {
    code: 'clock-skipped',
    text: `${column} ${clockText(minute)} on ${date} was skipped when the clocks went forward.`,
    remedy: 'Check the time, and time_zone in season.yaml.',
  };
}

/** A clock time that the clock change showed twice. */
export function clockTwice(column: string, minute: number, date: string): Message {
  return {
    code: 'clock-twice',
    text: `${column} ${clockText(minute)} on ${date} came twice when the clocks went back; the reading that fits the trip was taken.`,
    remedy: 'Nothing to do if an hour more or less does not matter here.',
  };
}

/** A time in that is not followed by its time out. */
export function soakBackwards(timeIn: number, timeOut: number, hours: number): Message {
  return {
    code: 'soak-backwards',
    text: `From ${clockText(timeIn)} to ${clockText(timeOut)} the soak would last ${round(hours)} hours, far more than its trip; time_out was not used.`,
    remedy: 'Correct time_in or time_out; they may be the wrong way round.',
  };
}

/** In and out at the same minute. */
export function soakOfNoLength(): Message {
  return {
    code: 'soak-of-no-length',
    text: 'time_in and time_out are the same minute, so the soak counts no line-hours.',
    remedy: 'Correct one of the two times, unless the bait was taken at once.',
  };
}

/** Only one of two times, and no hours. */
export function soakHalfTimed(column: 'time_in' | 'time_out'): Message {
  return {
    code: 'soak-half-timed',
    text: `The soak has ${column === 'time_in' ? 'no time_in' : 'no time_out'} and no hours, so its line-hours are not recorded.`,
    remedy: `Fill in ${column}, or the hours.`,
  };
}

/** A soak outside the hours its trip fished. */
export function soakOutsideTrip(from: number, to: number, trip: TripRow): Message {
  return {
    code: 'soak-outside-trip',
    text: `The soak from ${clockText(from)} to ${clockText(to)} is not within its trip${windowText(trip)}.`,
    remedy: 'Correct the times of the soak, or lines_in and lines_out of the trip.',
  };
}

/** More soak hours than the trip lasted. */
export function soakLongerThanTrip(hours: number, trip: number): Message {
  return {
    code: 'soak-longer-than-trip',
    text: `The soak of ${round(hours)} hours is longer than its trip (${round(trip)} hours); its hours were not used.`,
    remedy: 'Correct the hours of the soak, or the times of the trip.',
  };
}

/** Two soaks of one rod or one position at the same time. */
export function soaksOverlap(column: 'rod' | 'position', name: string, line: number): Message {
  return {
    code: `soaks-overlap-${column}`,
    text: `${column} "${name}" is in the water on line ${line} at the same time; both count as line-hours.`,
    remedy: 'Correct the times, or the rod and position, of one of the two soaks.',
  };
}

/** A bite outside the hours its trip fished. */
export function biteOutsideTrip(minute: number, trip: TripRow): Message {
  return {
    code: 'bite-outside-trip',
    text: `The bite at ${clockText(minute)} is not within its trip${windowText(trip)}.`,
    remedy: `Correct the time of the bite${afternoon(minute)}, or lines_in and lines_out of the trip.`,
  };
}

/** A fight longer than the whole trip. */
export function fightLongerThanTrip(minutes: number, tripHours: number): Message {
  return {
    code: 'fight-longer-than-trip',
    text: `A fight of ${round(minutes)} minutes is longer than its trip (${round(tripHours)} hours) and was not used.`,
    remedy: 'Correct fight_min; if it is in seconds, head the column fight_sec.',
  };
}

/** A cell that the outcome of the bite rules out. */
export function againstOutcome(column: string, value: string | number, outcome: string): Message {
  return {
    code: `${column.replaceAll('_', '-')}-against-outcome`,
    text: `${column} "${value}" does not go with the outcome ${outcome} and was not used.`,
    remedy: `Correct the outcome, or empty ${column}.`,
  };
}

/** The outcome itself says how the fish was lost. */
export function lostToFromOutcome(text: string, lostTo: string): Message {
  return {
    code: 'lost-to-from-outcome',
    text: `lost_to was empty; the outcome "${text}" says ${lostTo}.`,
    remedy: 'Nothing to do.',
  };
}

/** A tallied row without its count. */
export function countEmpty(): Message {
  return {
    code: 'count-empty',
    text: 'The count is empty; the row was read as one bite.',
    remedy: 'Write the number of bites.',
  };
}

/** A time of the morning may be one of the afternoon, written on a twelve-hour clock. */
function afternoon(minute: number): string {
  const ofDay = minute % 1440;
  return ofDay < 720 ? ` (${clockText(ofDay + 720)}, if it was the afternoon)` : '';
}

function windowText(trip: TripRow): string {
  const { lines_in, lines_out } = trip;
  if (lines_in === null || lines_out === null) return '';
  const out = lines_out < lines_in ? lines_out + 1440 : lines_out;
  return ` (lines in ${clockText(lines_in)}, out ${clockText(out)})`;
}

function round(value: number): string {
  return String(Math.round(value * 100) / 100);
}
