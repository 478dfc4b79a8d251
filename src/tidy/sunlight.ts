import { getPosition } from 'suncalc';
import type { EpochMinute } from '../base/zone.ts';

export const LIGHTS = ['dawn', 'day', 'dusk', 'night'] as const;
export type Light = (typeof LIGHTS)[number];

/** Degrees of sun elevation within which it is neither day nor night here. */
export const TWILIGHT_DEG = 6;

/**
 * Dawn, day, dusk or night by the sun's elevation at a place: day above +6°, night below −6°
 * (the civil limit), and between them dawn while the sun climbs, dusk while it sinks.
 * The band reaches as far above the horizon as below, because the bite does not end at sunrise.
 */
export function lightAt(instant: EpochMinute, lat: number, lon: number): Light {
  const elevation = elevationDeg(instant, lat, lon);
  if (elevation > TWILIGHT_DEG) return 'day';
  if (elevation < -TWILIGHT_DEG) return 'night';
  return elevationDeg(instant + 1, lat, lon) >= elevation ? 'dawn' : 'dusk';
}

function elevationDeg(instant: EpochMinute, lat: number, lon: number): number {
  return getPosition(new Date(instant * 60_000), lat, lon).altitude;
}
