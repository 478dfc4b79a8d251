import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import type { TripProportion } from '../stats/clustered-proportion.ts';
import { ratioTrip } from '../stats/clustered-ratio-trip.ts';
import { wilsonTrip, withinTripCorrelation } from '../stats/clustered-wilson-trip.ts';
import { LINE_AGE_BANDS, lineAgeBand } from '../tally/line-age-band.ts';
import type { WearBite, WearRecords, WearSoak } from './wear-records.ts';

/** What came to lines of one type and one age. Trips are the clusters of every interval. */
export interface WearFigures {
  readonly trips: number;
  readonly bites: number;
  readonly fights: number;
  readonly breaks: number;
  readonly pulled: number;
  /** null: not recorded. */
  readonly lineHours: number | null;
  /** Lines broken per fight, 0 to 1. */
  readonly breaksPerFight: Estimate;
  readonly breaksPerLineHour: Estimate;
  /** Hooks pulled per fight. */
  readonly pulledPerFight: Estimate;
  /** Fish hooked per bite. */
  readonly hookedPerBite: Estimate;
}

/** The figures of one band of line age, counted in trips on the line. */
export interface WearBand extends WearFigures {
  readonly band: string;
}

type WearCount = 'bites' | 'fights' | 'breaks' | 'pulled';

/**
 * Makes the figures of any part of the records; where a part has no break or nothing but breaks, it
 * borrows how alike fights of one trip are in all of them.
 */
export function wearFigurer(
  all: WearRecords,
  level: number,
): (part: Pick<WearRecords, 'bites' | 'soaks'>) => WearFigures {
  const share = (top: WearCount, under: WearCount) => {
    const borrowedCorrelation = withinTripCorrelation(byTrip(all.bites, top, under));
    return (bites: readonly WearBite[]) =>
      wilsonTrip(byTrip(bites, top, under), { level, borrowedCorrelation });
  };
  const breaks = share('breaks', 'fights');
  const pulled = share('pulled', 'fights');
  const hooked = share('fights', 'bites');
  return ({ bites, soaks }) => ({
    trips: new Set([...bites, ...soaks].map(({ trip }) => trip.trip_id)).size,
    bites: total(bites, 'bites'),
    fights: total(bites, 'fights'),
    breaks: total(bites, 'breaks'),
    pulled: total(bites, 'pulled'),
    lineHours: hoursOf(soaks),
    breaksPerFight: breaks(bites),
    breaksPerLineHour: ratioTrip(breaksOnHours(bites, soaks), { level }),
    pulledPerFight: pulled(bites),
    hookedPerBite: hooked(bites),
  });
}

/** The figures of one line type, young line to old; bands that nothing came to are left out. */
export function wearBands(
  { bites, soaks }: Pick<WearRecords, 'bites' | 'soaks'>,
  figuresOf: ReturnType<typeof wearFigurer>,
): WearBand[] {
  const bitesOf = groupBy(bites, ({ age }) => lineAgeBand(age.trips));
  const soaksOf = groupBy(soaks, ({ age }) => lineAgeBand(age.trips));
  return LINE_AGE_BANDS.filter((band) => bitesOf.has(band) || soaksOf.has(band)).map((band) => ({
    band,
    ...figuresOf({ bites: bitesOf.get(band) ?? [], soaks: soaksOf.get(band) ?? [] }),
  }));
}

function byTrip(bites: readonly WearBite[], top: WearCount, under: WearCount): TripProportion[] {
  return [...groupBy(bites, ({ trip }) => trip.trip_id).values()].map((ofTrip) => ({
    successes: total(ofTrip, top),
    units: total(ofTrip, under),
  }));
}

/** Breaks by trip over the line-hours of the same trip; breaks whose hours are unknown stay out. */
function breaksOnHours(bites: readonly WearBite[], soaks: readonly WearSoak[]) {
  const breaksOf = groupBy(
    bites.filter(({ isOnHours }) => isOnHours),
    ({ trip }) => trip.trip_id,
  );
  return [...groupBy(soaks, ({ trip }) => trip.trip_id)]
    .map(([trip, ofTrip]) => ({
      events: total(breaksOf.get(trip) ?? [], 'breaks'),
      exposure: hoursOf(ofTrip) ?? 0,
    }))
    .filter(({ exposure }) => exposure > 0);
}

function hoursOf(soaks: readonly WearSoak[]): number | null {
  const hours = soaks.flatMap(({ lineHours }) => (lineHours === null ? [] : [lineHours]));
  return hours.length === 0 ? null : hours.reduce((sum, one) => sum + one, 0);
}

function total(bites: readonly WearBite[], count: WearCount): number {
  return bites.reduce((sum, bite) => sum + bite[count], 0);
}
