import { clock, type LogRows, type Row } from './log-rows.ts';

/**
 * The few things that go wrong in any real log, each once, always at the same rows for the same
 * seed. The import finds and reports every one of them.
 */
export function withBlemishes(rows: LogRows): LogRows {
  const [sheetLost, hoursOnly] = tripsWithoutBites(rows);
  return {
    ...rows,
    trips: rows.trips.map((row, index) => (index === 40 ? hoursForClock(row) : row)),
    soaks: misspeltHook(
      rows.soaks
        .filter((row) => row.trip_id !== sheetLost)
        .map((row) => (row.trip_id === hoursOnly ? hoursForTimes(row) : row)),
    ),
    bites: pastedTwice(outsideItsSoak(misspeltBait(rows.bites), rows.soaks)),
  };
}

/** Trips on which no fish showed: the crew grew careless with the soak sheet. */
function tripsWithoutBites({ trips, bites }: LogRows): string[] {
  const bitten = new Set(bites.map((row) => row.trip_id));
  return trips.map((row) => row.trip_id as string).filter((trip) => !bitten.has(trip));
}

/** A trip whose clock times were never written down, only how long it fished. */
function hoursForClock(row: Row): Row {
  const hours_fished = hoursBetween(row.lines_in, row.lines_out).toFixed(1);
  return { ...row, lines_in: '', lines_out: '', hours_fished };
}

/** A soak that says how long, but not from when. */
function hoursForTimes(row: Row): Row {
  const hours = hoursBetween(row.time_in, row.time_out).toFixed(2);
  return { ...row, time_in: '', time_out: '', hours };
}

/** `7/0` typed with a dash. */
function misspeltHook(soaks: readonly Row[]): Row[] {
  const at = soaks.findIndex((row, index) => index > soaks.length / 3 && row.hook_size === '7/0');
  return soaks.map((row, index) => (index === at ? { ...row, hook_size: '7-0' } : row));
}

/** A bait in one of the crew's other spellings. */
function misspeltBait(bites: readonly Row[]): Row[] {
  const at = bites.findIndex(
    (row, index) => index > bites.length / 2 && row.bait === 'mackerel scad',
  );
  return bites.map((row, index) => (index === at ? { ...row, bait: 'mackrel scad' } : row));
}

/** A bite written down two minutes before its line went in, when no line was out there. */
function outsideItsSoak(bites: readonly Row[], soaks: readonly Row[]): Row[] {
  for (const [index, bite] of bites.entries()) {
    if (index < bites.length / 4 || bite.time === '') continue;
    const mates = soaks.filter(
      (soak) => soak.trip_id === bite.trip_id && soak.position === bite.position,
    );
    const own = mates.findIndex((soak) => covers(soak, bite.time));
    const before = mates[own - 1];
    if (before === undefined) continue;
    const moved = clock(minuteOf(mates[own]?.time_in) - 2);
    if (minuteOf(before.time_out) < minuteOf(moved))
      return bites.map((row, at) => (at === index ? { ...row, time: moved } : row));
  }
  return [...bites];
}

/** A row that went into the sheet twice. */
function pastedTwice(bites: readonly Row[]): Row[] {
  const at = Math.floor(bites.length * 0.7);
  return bites.flatMap((row, index) => (index === at ? [row, row] : [row]));
}

function covers(soak: Row, time: string | undefined): boolean {
  return minuteOf(soak.time_in) <= minuteOf(time) && minuteOf(time) <= minuteOf(soak.time_out);
}

function minuteOf(time: string | undefined): number {
  const [hour, minute] = (time ?? '').split(':').map(Number);
  return (hour ?? 0) * 60 + (minute ?? 0);
}

function hoursBetween(from: string | undefined, to: string | undefined): number {
  return ((minuteOf(to) - minuteOf(from) + 1440) % 1440) / 60;
}
