import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { listWords } from '../base/words.ts';
import { NO_SPREAD, ONE_CLUSTER } from '../stats/clustered-estimate.ts';
import { clusterRatio } from '../stats/clustered-ratio.ts';
import { tCritical } from '../stats/interval-level.ts';
import { factorWords } from '../tally/factor-words.ts';
import type { TidySoak } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import { type AskedPart, askedTrips, cutsTrips } from './asked-rows.ts';

/** What a line was doing, in the order of the table. */
export const LINE_STATES = ['fishing', 'fish_on', 'between', 'ends'] as const;
/**
 * `fishing`: bait in the water, no fish on; `fish_on`: hours a fight took off its soak; `between`:
 * out of the water between two soaks of its position; `ends`: from lines in to the first soak of
 * the position, and from its last soak to lines out.
 */
export type LineState = (typeof LINE_STATES)[number];

/** Line-hours of one trip by what the lines were doing. */
export type TripHours = Readonly<Record<LineState, number>> & { readonly trip: TidyTrip };

/** Where the hours of the trips went. */
export interface TripMinutes {
  /** Trips with clock times of lines in, lines out and every soak; only these are counted. */
  readonly trips: readonly TripHours[];
  /** Trips left out because a clock time or all soaks are missing. */
  readonly leftOut: number;
  /** Line-hours of all counted trips by state, and the share of each, 0 to 1, with its interval. */
  readonly states: readonly {
    readonly state: LineState;
    readonly hours: number;
    readonly share: Estimate;
  }[];
  /** Why there is nothing to tell; null where there is. */
  readonly refused: string | null;
}

/**
 * Where the line-hours of a trip went, for every position that was fished on it. Each position has
 * the hours from lines in to lines out; overlapping soaks of one position (two rods) add to what
 * was fished. Shares are ratios of totals with trips as clusters, estimate ± t √v (CR2), kept
 * within 0 and 1.
 */
export function tripMinutes(
  season: TidySeason,
  part: AskedPart & { readonly level: number },
): TripMinutes {
  const none = (refused: string, leftOut = 0) => ({ trips: [], leftOut, states: [], refused });
  const cut = cutsTrips(part).map(factorWords);
  if (cut.length > 0) {
    return none(`The minutes of a trip cannot be cut down to one ${listWords(cut)}.`);
  }
  const asked = askedTrips(season, part);
  if (asked.length === 0) return none('There is no trip in this log yet.');
  if (season.soaks === null) {
    return none(
      'When lines went in and came out is not recorded: log each soak in soaks.csv (position, time_in, time_out).',
      asked.length,
    );
  }
  const soaksOf = groupBy(season.soaks, ({ trip_id }) => trip_id);
  const trips = asked.flatMap((trip) => hoursOfTrip(trip, soaksOf.get(trip.trip_id) ?? []));
  const leftOut = asked.length - trips.length;
  if (trips.length === 0) {
    return none('No trip has the clock times of lines in, lines out and all its soaks.', leftOut);
  }
  const totals = trips.map((trip) => LINE_STATES.reduce((sum, state) => sum + trip[state], 0));
  const states = LINE_STATES.map((state) => {
    const hours = trips.map((trip) => trip[state]);
    const total = hours.reduce((sum, one) => sum + one, 0);
    return { state, hours: total, share: shareOf(hours, totals, part.level) };
  });
  return { trips, leftOut, states, refused: null };
}

function hoursOfTrip(trip: TidyTrip, soaks: readonly TidySoak[]): TripHours[] {
  const { start, end } = trip;
  if (start === null || end === null || end <= start || soaks.length === 0) return [];
  if (soaks.some((soak) => soak.start === null || soak.end === null)) return [];
  const sums = { fishing: 0, fish_on: 0, between: 0, ends: 0 };
  for (const soak of soaks) {
    const [gross, fishing] = [soak.grossHours ?? 0, soak.lineHours ?? 0];
    sums.fishing += fishing;
    sums.fish_on += gross - fishing;
  }
  for (const ofPosition of groupBy(soaks, ({ position }) => position).values()) {
    const ordered = [...ofPosition].sort((a, b) => (a.start ?? 0) - (b.start ?? 0));
    const first = ordered[0]?.start ?? start;
    let out = ordered[0]?.end ?? first;
    for (const soak of ordered.slice(1)) {
      sums.between += Math.max(0, (soak.start ?? out) - out) / 60;
      out = Math.max(out, soak.end ?? out);
    }
    sums.ends += (Math.max(0, first - start) + Math.max(0, end - out)) / 60;
  }
  return [{ trip, ...sums }];
}

function shareOf(hours: readonly number[], totals: readonly number[], level: number): Estimate {
  const ratio = clusterRatio(hours, totals);
  const basis = { level, method: 'ratio-trip-t', n: hours.length, exposure: null, notes: [] };
  if (ratio === null) return notEstimable('No line was out.', basis);
  if (ratio.clusters < 2) return notEstimable(ONE_CLUSTER, basis);
  if (ratio.variance === 0) return notEstimable(NO_SPREAD, basis);
  const reach = tCritical(level, ratio.degreesOfFreedom) * Math.sqrt(ratio.variance);
  return estimated({
    ...basis,
    estimate: ratio.ratio,
    lower: Math.max(0, ratio.ratio - reach),
    upper: Math.min(1, ratio.ratio + reach),
  });
}
