import type { ShareTrip } from '../../src/share/share-trip.ts';

interface TripParts extends Partial<Omit<ShareTrip, 'catches' | 'bites'>> {
  readonly trip_id: string;
  /** By species: kept, released, lost. */
  readonly catches?: Readonly<Record<string, readonly [number, number, number]>>;
}

/** A trip of which a test says only what it is about. */
export function shareTrip({ catches = {}, ...parts }: TripParts): ShareTrip {
  const fish = Object.entries(catches).map(
    ([code, [kept, released, lost]]) => [code, { kept, released, lost }] as const,
  );
  const hooked = fish.reduce((sum, [, f]) => sum + f.kept + f.released + f.lost, 0);
  const missed = parts.missed ?? 0;
  const month = parts.month ?? '2025-03';
  return {
    vessel: 'one',
    effort: 5,
    date: `${month}-07`,
    week: '2025-W10',
    lat: -12.3,
    lon: 54.5,
    windForce: 3,
    hours: 5,
    lineHours: 20,
    isAssumed: false,
    ...parts,
    month,
    missed,
    bites: missed + hooked,
    catches: new Map(fish),
  };
}
