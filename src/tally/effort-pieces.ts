import type { EpochMinute } from '../base/zone.ts';
import type { EffortUnit } from '../tidy/effort.ts';
import { type Fight, hoursLeft } from '../tidy/fight-time.ts';
import { type Light, lightAt } from '../tidy/sunlight.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** Line-hours of one unit of effort within one clock hour and one light. */
export interface EffortPiece {
  readonly unit: EffortUnit;
  readonly lineHours: number;
  /** Hour of the boat's clock; null where the clock was not logged, or not asked for. */
  readonly hourOfDay: number | null;
  readonly light: Light | null;
}

/** A stretch of a unit before its fights come off. */
interface Stretch {
  readonly from: EpochMinute;
  readonly to: EpochMinute;
  hours: number;
}

/** The unit as one piece, for questions that do not look at the clock. */
export function wholePiece(unit: EffortUnit): EffortPiece {
  return { unit, lineHours: unit.lineHours, hourOfDay: null, light: null };
}

/** Which changes of the clock and the sky a question looks at. */
export interface ClockCuts {
  readonly hour: boolean;
  readonly light: boolean;
}

/**
 * Splits a unit at the clock hours, or the changes of light, that are asked for. The pieces'
 * line-hours add up to the unit's own. A fight comes off the hours that follow its bite; what runs
 * past the soak's end, or has no time, comes off all pieces alike.
 */
export function piecesByClock(
  unit: EffortUnit,
  season: TidySeason,
  cuts: ClockCuts,
): EffortPiece[] {
  const { start, end, trip } = unit;
  if (!cuts.hour && !cuts.light) return [wholePiece(unit)];
  if (start === null || end === null || end <= start) return [wholePiece(unit)];
  const inside = [
    ...(cuts.hour ? season.clock.hourStarts(start, end) : []),
    ...(cuts.light ? lightChanges(unit) : []),
  ];
  const bounds = [...new Set([start, ...inside, end])].sort((a, b) => a - b);
  const linesOut = unit.soak === null ? (unit.lineHours * 60) / (end - start) : 1;
  const stretches = bounds.slice(1).map((to, at): Stretch => {
    const from = bounds[at] ?? to;
    return { from, to, hours: ((to - from) / 60) * linesOut };
  });
  for (const fight of unit.soak?.fights ?? []) takeOff(stretches, fight, season);
  const left = stretches.reduce((sum, stretch) => sum + stretch.hours, 0);
  // What whole fights took beyond the stretches after the bite is spread over what is left.
  const scale = left > 0 ? unit.lineHours / left : 0;
  const hasPlace = trip.lat !== null && trip.lon !== null;
  return stretches.map(({ from, hours }) => ({
    unit,
    lineHours: hoursLeft(hours * scale),
    hourOfDay: cuts.hour ? season.clock.hourAt(from) : null,
    light: cuts.light && hasPlace ? lightAt(from, trip.lat ?? 0, trip.lon ?? 0) : null,
  }));
}

function takeOff(stretches: readonly Stretch[], fight: Fight, season: TidySeason): void {
  const instant = season.bites[fight.bite]?.instant;
  if (instant == null) return;
  let owed = fight.hours;
  for (const stretch of stretches) {
    if (stretch.to <= instant || owed <= 0) continue;
    const fishable = Math.min(stretch.hours, (stretch.to - Math.max(stretch.from, instant)) / 60);
    const taken = Math.min(owed, fishable);
    stretch.hours -= taken;
    owed -= taken;
  }
}

/** No light is shorter: at the equator the sun takes 48 minutes through the twilight band. */
const LIGHT_STEP_MINUTES = 20;

/** The minutes at which the light changes while the unit is out. */
function lightChanges({ trip, start, end }: EffortUnit): EpochMinute[] {
  const { lat, lon } = trip;
  if (start === null || end === null || lat === null || lon === null) return [];
  const changes: EpochMinute[] = [];
  for (let from = start; from < end; from += LIGHT_STEP_MINUTES) {
    const to = Math.min(from + LIGHT_STEP_MINUTES, end);
    const before = lightAt(from, lat, lon);
    if (lightAt(to, lat, lon) !== before) changes.push(firstMinute(from, to, before));
  }
  return changes.filter((at) => at < end);

  function firstMinute(from: EpochMinute, to: EpochMinute, before: Light): EpochMinute {
    let [same, other] = [from, to];
    while (other - same > 1) {
      const middle = Math.floor((same + other) / 2);
      if (lightAt(middle, lat ?? 0, lon ?? 0) === before) same = middle;
      else other = middle;
    }
    return other;
  }
}
