import { getMoonIllumination } from 'suncalc';
import type { EpochMinute } from '../base/zone.ts';

/** The eighths of the moon's cycle, in order, each centred on its name. */
export const MOON_EIGHTHS = [
  'new',
  'waxing crescent',
  'first quarter',
  'waxing gibbous',
  'full',
  'waning gibbous',
  'last quarter',
  'waning crescent',
] as const;

export type MoonEighth = (typeof MOON_EIGHTHS)[number];

/**
 * The eighth of the moon's cycle at an instant. The phase comes from suncalc, whose short series is
 * good to about an hour, against the three and a half days of an eighth.
 */
export function moonEighth(instant: EpochMinute): MoonEighth {
  const { phase } = getMoonIllumination(new Date(instant * 60_000));
  return MOON_EIGHTHS[Math.round(phase * 8) % 8] ?? 'new';
}
