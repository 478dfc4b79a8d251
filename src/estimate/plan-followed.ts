import { groupBy } from '../base/group-by.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { CompareRequest } from './compare-levels.ts';
import { type Contrast, eventsAndUnits, type TripPair } from './level-pairs.ts';
import type { PlanDesign } from './plan-design.ts';
import type { TripMade } from './plan-trips-made.ts';
import { talliedGroups } from './rates.ts';

/** What was fished otherwise than the schedule said. */
export interface Departure {
  readonly tripNumber: number;
  readonly trip_id: string;
  readonly date: string;
  /** null: the whole trip. */
  readonly position: string | null;
  readonly planned: string;
  readonly logged: string;
  readonly bites: number;
}

/** The trips of a schedule counted twice: by what the lot said and by what was fished. */
export interface FollowedPlan {
  /**
   * By what was planned, whatever was fished; one entry a stratum (a trip, or a pair of trips under
   * the name of its later one), in the order of time.
   */
  readonly asRandomised: readonly TripPair[];
  /** The same lines by what the log says of them. */
  readonly asFished: readonly TripPair[];
  readonly departures: readonly Departure[];
  /** Bites on the lines of the schedule. */
  readonly bites: number;
  /** Bites on these trips that have no position, and so no place in the schedule. */
  readonly bitesWithoutPlace: number;
  /** Bites on lines of the schedule of which the log does not say what was fished. */
  readonly bitesWithoutLevel: number;
}

/**
 * Counts the lines of a schedule as randomised and as fished. Lines that the schedule does not name
 * (the pitch rod) are in neither.
 */
export function followedPlan(
  season: TidySeason,
  contrast: Contrast,
  {
    request,
    design,
    made,
  }: {
    readonly request: CompareRequest;
    readonly design: PlanDesign;
    readonly made: readonly TripMade[];
  },
): FollowedPlan {
  const { factor } = contrast;
  const by = design === 'sides' ? [factor, 'position' as const] : [factor];
  const ofTrip = new Map(made.map((one) => [one.trip.trip_id, one]));
  const rows = talliedGroups(season, { ...request, by })
    .flatMap((group) => group.rows)
    .filter((row) => ofTrip.has(row.trip_id));
  const placed = rows.flatMap((row): PlacedRow[] => {
    const trip = ofTrip.get(row.trip_id);
    const line = trip?.scheduled.lines.find((one) => one.position === (row.position ?? null));
    if (trip === undefined || line === undefined) return [];
    return [{ row, made: trip, planned: line.level, logged: row[factor] ?? NOT_RECORDED }];
  });
  const stratumOf = ({ made: { trip, scheduled } }: PlacedRow) =>
    design === 'sides' ? trip.trip_id : scheduled.block;
  const unplaced = design === 'sides' ? rows.filter((row) => row.position === NOT_RECORDED) : [];
  const unsaid = placed.filter(({ logged }) => logged === NOT_RECORDED);
  return {
    asRandomised: pairs(placed, contrast, { stratumOf, levelOf: (one) => one.planned }),
    asFished: pairs(placed, contrast, { stratumOf, levelOf: (one) => one.logged }),
    departures: (design === 'sides' ? placed : wholeTrips(made, contrast, placed))
      .filter(({ planned, logged }) => planned !== logged && logged !== NOT_RECORDED)
      .map(departure)
      .sort((one, other) => one.tripNumber - other.tripNumber),
    bites: bitesOf(placed.map(({ row }) => row)),
    bitesWithoutPlace: bitesOf(unplaced),
    bitesWithoutLevel: bitesOf(unsaid.map(({ row }) => row)),
  };
}

/** A trip that brought nothing has no tally, and may have left the schedule all the same. */
function wholeTrips(
  made: readonly TripMade[],
  { factor }: Contrast,
  placed: readonly PlacedRow[],
): Departing[] {
  return made.map((one) => ({
    made: one,
    planned: one.scheduled.lines[0]?.level ?? NOT_RECORDED,
    logged: (factor === 'area' ? one.trip.area : one.trip.trip_kind) ?? NOT_RECORDED,
    row: { bites: bitesOf(placed.filter((other) => other.made === one).map(({ row }) => row)) },
  }));
}

interface Departing extends Omit<PlacedRow, 'row'> {
  readonly row: Pick<TallyRow, 'bites' | 'position'>;
}

interface PlacedRow {
  readonly row: TallyRow;
  readonly made: TripMade;
  readonly planned: string;
  readonly logged: string;
}

function pairs(
  placed: readonly PlacedRow[],
  { levels: [a, b], measure }: Contrast,
  of: {
    readonly stratumOf: (one: PlacedRow) => string;
    readonly levelOf: (one: PlacedRow) => string;
  },
): TripPair[] {
  const strata = [...groupBy(placed, of.stratumOf).values()].map((ofStratum) => {
    const pair = { x1: 0, n1: 0, x2: 0, n2: 0 };
    for (const one of ofStratum) {
      const { events, units } = eventsAndUnits(one.row, measure);
      const level = of.levelOf(one);
      if (level === a) {
        pair.x1 += events;
        pair.n1 += units;
      } else if (level === b) {
        pair.x2 += events;
        pair.n2 += units;
      }
    }
    const latest = ofStratum.reduce((last, one) =>
      one.made.trip.order > last.made.trip.order ? one : last,
    );
    return { order: latest.made.trip.order, pair: { trip_id: latest.row.trip_id, ...pair } };
  });
  return strata
    .sort((first, second) => first.order - second.order)
    .map(({ pair }) => pair)
    .filter(({ n1, n2 }) => n1 > 0 || n2 > 0);
}

function departure({ row, made, planned, logged }: Departing): Departure {
  return {
    tripNumber: made.scheduled.tripNumber,
    trip_id: made.trip.trip_id,
    date: made.trip.date,
    position: row.position ?? null,
    planned,
    logged,
    bites: row.bites,
  };
}

function bitesOf(rows: readonly TallyRow[]): number {
  return rows.reduce((sum, row) => sum + row.bites, 0);
}
