import { groupBy } from '../base/group-by.ts';
import type { Outcome } from '../read/rows.ts';
import type { Settings } from '../settings/settings.ts';
import type { Question } from '../tally/question.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { speciesCode } from './species-codes.ts';
import type { Contribution } from './thresholds.ts';

/** What became of fish of one species once hooked. */
export interface Fates {
  readonly kept: number;
  readonly released: number;
  readonly lost: number;
}

/** One trip with all that may go into a sum, and what is needed to place it in one. */
export interface ShareTrip extends Contribution {
  readonly trip_id: string;
  readonly date: string;
  /** `2025-03`. */
  readonly month: string;
  /** ISO week, `2025-W09`. */
  readonly week: string;
  readonly lat: number | null;
  readonly lon: number | null;
  /** Beaufort force; null: not recorded. */
  readonly windForce: number | null;
  /** Hours between lines in and lines out; null: not recorded. */
  readonly hours: number | null;
  /** null: not recorded. */
  readonly lineHours: number | null;
  /** Whether the line-hours are hours fished × lines fished. */
  readonly isAssumed: boolean;
  readonly bites: number;
  readonly missed: number;
  /** By three-letter species code, every hooked fish. */
  readonly catches: ReadonlyMap<string, Fates>;
}

/** No fish. */
export const NO_FATES: Fates = { kept: 0, released: 0, lost: 0 };

/** The trips of the log that are asked for, each with its sums; a trip without a bite has zeros. */
export function shareTrips(
  season: TidySeason,
  question: Pick<Question, 'from' | 'to'> & { readonly isKept: (trip: TidyTrip) => boolean },
): ShareTrip[] {
  const { from, to, isKept } = question;
  const { settings } = season.log;
  const bites = groupBy(season.bites, (bite) => bite.trip_id);
  const effort = groupBy(season.effort.units, (unit) => unit.trip.trip_id);
  const vesselOf = vesselReader(settings);
  return season.trips
    .filter(({ date }) => (from === null || date >= from) && (to === null || date <= to))
    .filter(isKept)
    .map((trip) => {
      const units = effort.get(trip.trip_id);
      const lineHours = units?.reduce((sum, unit) => sum + unit.lineHours, 0) ?? null;
      const { trip_id, date, month, week, lat, lon, windForce, fishedHours } = trip;
      const hours = fishedHours;
      const isAssumed = units?.some((unit) => unit.soak === null) ?? false;
      const counts = countsOf(bites.get(trip_id) ?? [], settings);
      const place = { trip_id, date, month, week, lat, lon, windForce };
      const own = { vessel: vesselOf(trip), effort: lineHours ?? hours ?? 1 };
      return { ...place, ...own, hours, lineHours, isAssumed, ...counts };
    });
}

/** Letters and digits of a name, so that no other spelling of one boat counts as a second boat. */
export function vesselKey(name: string): string {
  const bare = name.normalize('NFKD').toLowerCase();
  return bare.replace(/[^\p{L}\p{N}]+/gu, '') || bare;
}

/** Trips without a vessel's name are the boat of the settings, or all one boat. */
function vesselReader(settings: Settings): (trip: TidyTrip) => string {
  const usual = settings.vessel === null ? '' : vesselKey(settings.vessel);
  return (trip) => (trip.vessel === null ? usual : vesselKey(trip.vessel));
}

function countsOf(bites: readonly TidyBite[], { species }: Settings) {
  const catches = new Map<string, Fates>();
  let all = 0;
  let missed = 0;
  for (const { outcome, count, species: word } of bites) {
    all += count;
    if (outcome === 'missed') {
      missed += count;
    } else {
      const { code } = speciesCode(word, species);
      catches.set(code, withFish(catches.get(code) ?? NO_FATES, outcome, count));
    }
  }
  return { bites: all, missed, catches };
}

function withFish(fates: Fates, outcome: Exclude<Outcome, 'missed'>, count: number): Fates {
  return { ...fates, [outcome]: fates[outcome] + count };
}
