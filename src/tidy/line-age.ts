import { dayNumber } from '../base/zone.ts';
import type { SpoolRow } from '../read/rows.ts';
import type { JoinedBite } from './join-bites.ts';
import type { PlacedSoak } from './place-soaks.ts';
import type { LineAge, SpoolHistory } from './spool-history.ts';
import { compare, type TidyTrip } from './tidy-trips.ts';

/** Line age at every soak (when it went in) and every bite; null without a spool row before it. */
export interface LineAges {
  readonly ofSoak: readonly (LineAge | null)[];
  readonly ofBite: readonly (LineAge | null)[];
}

interface Moment {
  readonly kind: 'soak' | 'bite';
  readonly index: number;
  readonly rod: string;
  readonly trip: TidyTrip;
  readonly instant: number;
}

/**
 * Walks every rod's season in order and counts what its line has been through.
 * @param soakHours line-hours of each soak, fights taken off; null: not recorded.
 */
export function lineAges(
  soaks: readonly PlacedSoak[],
  bites: readonly JoinedBite[],
  spools: SpoolHistory,
  soakHours: readonly (number | null)[],
): LineAges {
  const ofSoak: (LineAge | null)[] = soaks.map(() => null);
  const ofBite: (LineAge | null)[] = bites.map(() => null);
  let now = freshLine(null);
  let rod: string | null = null;
  for (const moment of momentsInOrder(soaks, bites)) {
    const spool = spools.on(moment.rod, moment.trip.date);
    if (moment.rod !== rod || spool !== now.spool) now = freshLine(spool);
    rod = moment.rod;
    if (spool === null) continue;
    now.tripIds.add(moment.trip.trip_id);
    if (moment.kind === 'soak') {
      ofSoak[moment.index] = ageAt(now, spool, moment.trip, now.lineHours);
      now.lineHours += soakHours[moment.index] ?? 0;
      continue;
    }
    const bite = bites[moment.index];
    if (bite === undefined) continue;
    if (bite.outcome !== 'missed') now.fights += bite.count;
    const ahead = hoursStillToFish(bite, soaks, soakHours);
    ofBite[moment.index] = ageAt(now, spool, moment.trip, Math.max(0, now.lineHours - ahead));
  }
  return { ofSoak, ofBite };
}

function freshLine(spool: SpoolRow | null) {
  return { spool, tripIds: new Set<string>(), lineHours: 0, fights: 0 };
}

function ageAt(
  now: ReturnType<typeof freshLine>,
  spool: SpoolRow,
  trip: TidyTrip,
  lineHours: number,
): LineAge {
  return {
    spool,
    days: dayNumber(trip.date) - dayNumber(spool.date),
    trips: now.tripIds.size,
    lineHours,
    fights: now.fights,
  };
}

/** The soak's hours are counted when it goes in; what was still ahead at the bite is given back. */
function hoursStillToFish(
  bite: JoinedBite,
  soaks: readonly PlacedSoak[],
  soakHours: readonly (number | null)[],
): number {
  const soak = bite.soak === null ? undefined : soaks[bite.soak];
  if (soak?.end == null || bite.instant === null) return 0;
  return Math.min((soak.end - bite.instant) / 60, soakHours[bite.soak ?? -1] ?? 0);
}

/** Soaks and bites of all rods, rod after rod, each in the order they happened. */
function momentsInOrder(
  soaks: readonly PlacedSoak[],
  bites: readonly JoinedBite[],
): readonly Moment[] {
  const endOfTrip = Number.MAX_SAFE_INTEGER;
  const moments: Moment[] = [];
  for (const [index, { rod, trip, start }] of soaks.entries()) {
    if (rod !== null) moments.push({ kind: 'soak', index, rod, trip, instant: start ?? 0 });
  }
  for (const [index, bite] of bites.entries()) {
    const { rod, trip, instant } = bite;
    if (rod !== null)
      moments.push({ kind: 'bite', index, rod, trip, instant: instant ?? endOfTrip });
  }
  return moments.sort(
    (a, b) => compare(a.rod, b.rod) || a.trip.order - b.trip.order || a.instant - b.instant,
  );
}
