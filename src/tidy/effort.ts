import type { EpochMinute } from '../base/zone.ts';
import type { Position, Settings } from '../settings/settings.ts';
import type { TidyBite, TidySoak } from './tidy-rows.ts';
import type { TidyTrip } from './tidy-trips.ts';

/**
 * A piece of fishing effort that can be told apart: one soak, or, for a trip without soaks, the
 * whole trip or one standing position of it.
 */
export interface EffortUnit {
  readonly trip: TidyTrip;
  /** null for effort worked out from hours fished × lines fished, which is marked as assumed. */
  readonly soak: TidySoak | null;
  /** The standing position, where effort was spread over the declared spread. */
  readonly position: Position | null;
  readonly lineHours: number;
  readonly start: EpochMinute | null;
  readonly end: EpochMinute | null;
}

/** Effort units, and for each bite the unit its figure per line-hour rests on. */
export interface Effort {
  readonly units: readonly EffortUnit[];
  /** Index into units by bite; null: the bite met no recorded effort. */
  readonly unitOfBite: readonly (number | null)[];
}

/**
 * Line-hours of the season, by unit. A trip with soaks has its soaks' hours and nothing else; a
 * trip without has hours fished × lines fished, spread over the standing spread where that is
 * declared; neither: the trip has none.
 */
export function effortOf(
  season: {
    readonly trips: readonly TidyTrip[];
    readonly soaks: readonly TidySoak[] | null;
    readonly bites: readonly TidyBite[];
  },
  settings: Settings,
): Effort {
  const units: EffortUnit[] = [];
  const unitOfSoak = (season.soaks ?? []).map((soak) => {
    if (soak.lineHours === null) return null;
    const { trip, lineHours, start, end } = soak;
    return units.push({ trip, soak, position: null, lineHours, start, end }) - 1;
  });
  const tripsWithSoaks = new Set((season.soaks ?? []).map((soak) => soak.trip_id));
  const unitsOfTrip = new Map<string, Map<string | null, number>>();
  for (const trip of season.trips) {
    if (tripsWithSoaks.has(trip.trip_id)) continue;
    const ofTrip = new Map<string | null, number>();
    for (const unit of assumedUnits(trip, settings)) {
      ofTrip.set(unit.position?.name ?? null, units.push(unit) - 1);
    }
    unitsOfTrip.set(trip.trip_id, ofTrip);
  }
  const unitOfBite = season.bites.map((bite) => {
    if (bite.soak !== null) return unitOfSoak[bite.soak] ?? null;
    const ofTrip = unitsOfTrip.get(bite.trip_id);
    // A bite away from the spread still happened within the trip's hours as a whole.
    const [anyOfTrip = null] = ofTrip?.values() ?? [];
    return ofTrip?.get(bite.position) ?? anyOfTrip;
  });
  return { units, unitOfBite };
}

function assumedUnits(trip: TidyTrip, settings: Settings): EffortUnit[] {
  const { positions, standing_spread } = settings;
  const lines = trip.lines_fished ?? (standing_spread.length || null);
  if (trip.fishedHours === null || lines === null) return [];
  const lineHours = trip.fishedHours * lines;
  const { start, end } = trip;
  const spread = positions.filter((position) => standing_spread.includes(position.name));
  if (spread.length === 0) return [{ trip, soak: null, position: null, lineHours, start, end }];
  return spread.map((position) => ({
    trip,
    soak: null,
    position,
    lineHours: lineHours / spread.length,
    start,
    end,
  }));
}
