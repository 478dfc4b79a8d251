import { normalQuantile, tQuantile } from './distributions.ts';

/** What every interval function is told: the two-sided confidence level, between 0 and 1. */
export interface Level {
  readonly level: number;
}

/**
 * The share α/2 left outside at each end of a two-sided interval, e.g. 0.025 at level 0.95.
 * A level outside (0, 1) is a programmer's mistake and throws.
 */
export function tailArea(level: number): number {
  if (!(level > 0 && level < 1))
    throw new RangeError(`A confidence level lies between 0 and 1, not at ${level}.`);
  return (1 - level) / 2;
}

/** z: the upper α/2 point of the standard normal distribution, e.g. 1.96 at level 0.95. */
export function normalCritical(level: number): number {
  return -normalQuantile(tailArea(level));
}

/** t: the upper α/2 point of Student's t on `degreesOfFreedom` (above 0, need not be whole). */
export function tCritical(level: number, degreesOfFreedom: number): number {
  return -tQuantile(tailArea(level), degreesOfFreedom);
}
