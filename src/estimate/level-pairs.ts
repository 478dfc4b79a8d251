import { groupBy } from '../base/group-by.ts';
import type { ClusterPair } from '../stats/same-cluster-pairs.ts';
import type { FactorName } from '../tally/factors.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import type { TallyRow } from '../tally/tallies.ts';

/** Which levels of which factor are compared, and by what. */
export interface Compared {
  readonly factor: FactorName;
  readonly levels: readonly string[];
  readonly measure: Measure;
}

/** Two levels compared. */
export interface Contrast extends Compared {
  /** A and B; differences are A − B. */
  readonly levels: readonly [string, string];
}

/** What a tally row brings to a measure: events among units (bites, hooked fish or line-hours). */
export function eventsAndUnits(
  row: TallyRow,
  measure: Measure,
): { readonly events: number; readonly units: number } {
  const { numerator, denominator } = MEASURES[measure];
  if (denominator !== 'line_hours') return { events: row[numerator], units: row[denominator] };
  // Bites whose line-hours are not in the row cannot be divided by them.
  if (row.line_hours <= 0) return { events: 0, units: 0 };
  const counted = numerator as 'bites' | 'hooked' | 'caught' | 'released';
  return { events: row[`${counted}_on_effort`], units: row.line_hours };
}

/** Bites or hooked fish that rows stand on; for a rate, the bites counted in it. */
export function bitesOfRows(
  rows: readonly TallyRow[],
  { measure }: Pick<Compared, 'measure'>,
): number {
  const share = MEASURES[measure].denominator !== 'line_hours';
  return rows.reduce((sum, row) => {
    const { events, units } = eventsAndUnits(row, measure);
    return sum + (share ? units : events);
  }, 0);
}

/** A trip's events and units at A and at B. */
export interface TripPair extends ClusterPair {
  readonly trip_id: string;
}

/**
 * One pair a trip, in the order trips are first met in the rows; trips with neither level are left
 * out.
 */
export function tripPairs(rows: readonly TallyRow[], contrast: Contrast): TripPair[] {
  const [a, b] = contrast.levels;
  const byTrip = groupBy(
    rows.filter((row) => row[contrast.factor] === a || row[contrast.factor] === b),
    (row) => row.trip_id,
  );
  return [...byTrip]
    .map(([trip_id, ofTrip]) => {
      const [x1, n1] = totals(ofTrip, contrast, a);
      const [x2, n2] = totals(ofTrip, contrast, b);
      return { trip_id, x1, n1, x2, n2 };
    })
    .filter((pair) => pair.n1 > 0 || pair.n2 > 0);
}

function totals(rows: readonly TallyRow[], { factor, measure }: Contrast, level: string) {
  let events = 0;
  let units = 0;
  for (const row of rows) {
    if (row[factor] !== level) continue;
    const one = eventsAndUnits(row, measure);
    events += one.events;
    units += one.units;
  }
  return [events, units] as const;
}
