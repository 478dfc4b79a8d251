import { groupBy } from '../base/group-by.ts';
import { designMatrix } from '../stats/design-matrix.ts';
import { fitGlm } from '../stats/glm-fit.ts';
import { benjaminiHochberg } from '../stats/multiplicity.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import { waldTest } from '../stats/wald-test.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidyTrip } from '../tidy/tidy-trips.ts';
import type { Condition } from './condition-bands.ts';

/** A level of fewer trips takes no part in a test. Common practice, no source. */
const FEWEST_TRIPS = 5;

/** A trip's bites and line-hours, with the trip. */
export interface TripBites {
  readonly trip: TidyTrip;
  readonly row: TallyRow;
}

/** Whether bites per line-hour go with a condition, in chances; null: cannot be tested. */
export interface ConditionTest {
  /** Levels that took part: those of five trips or more with a bite. */
  readonly levels: number;
  readonly trips: number;
  /** Chance of levels this far apart, or further, if the condition made no difference. */
  readonly p: number | null;
  /** The same with the months of the log held equal; null also where the log has one month. */
  readonly pWithinMonth: number | null;
  /** Why there is no p; null where there is one. */
  readonly reason: string | null;
}

/**
 * Tests whether bites per line-hour differ between the levels of a condition at all: a Poisson
 * log-linear model of the bites of each trip, with ln(line-hours) as offset and the condition as a
 * factor. Bites of one trip may be alike in any way, since each trip is one row with its own CR2
 * variance; the joint Wald test of all levels has the small-sample F form.
 * Source: Bell & McCaffrey 2002; Pustejovsky & Tipton 2018 (AHT-Z).
 * @param rows one a trip; those without line-hours or of a level of too few trips are left out.
 */
export function conditionTest(condition: Condition, rows: readonly TripBites[]): ConditionTest {
  const withHours = rows.filter(({ row }) => row.line_hours > 0);
  const groups = groupBy(withHours, ({ trip }) => condition.levelOf(trip));
  const used = [...groups].flatMap(([level, of]) =>
    level !== null && of.length >= FEWEST_TRIPS && bitesOf(of) > 0 ? [{ level, of }] : [],
  );
  const trips = used.flatMap(({ of }) => of);
  const basis = { levels: used.length, trips: trips.length };
  const without = (reason: string) => ({ ...basis, p: null, pWithinMonth: null, reason });
  if (used.length < 2) {
    return without(`There are not two levels of ${FEWEST_TRIPS} trips or more with a bite.`);
  }
  const names = used.map(({ level }) => level).sort();
  const asLogged = jointP(condition, trips, { names, months: false });
  if (typeof asLogged === 'string') return without(asLogged);
  const within = jointP(condition, trips, { names, months: true });
  return {
    ...basis,
    p: asLogged,
    pWithinMonth: typeof within === 'string' ? null : within,
    reason: null,
  };
}

/**
 * Which of the tests stand once it is known how many were made (Benjamini–Hochberg); those that
 * could not be made are not counted and do not stand.
 */
export function flagged(tests: readonly ConditionTest[], level: number): boolean[] {
  const made = tests.flatMap(({ p }, at) => (p === null ? [] : [{ p, at }]));
  const adjusted = benjaminiHochberg(made.map(({ p }) => p));
  const standing = made.filter((_, rank) => (adjusted[rank] ?? 1) <= 1 - level + 1e-12);
  return tests.map((_, at) => standing.some((one) => one.at === at));
}

function jointP(
  condition: Condition,
  trips: readonly TripBites[],
  { names, months }: { readonly names: readonly string[]; readonly months: boolean },
): number | string {
  const values = trips.map(({ trip }) => condition.levelOf(trip) ?? '');
  const month = trips.map(({ trip }) => trip.month);
  const known = [...new Set(month)].sort();
  if (months && known.length < 2) return 'The log has one month.';
  const monthsOf = { levels: known, values: month };
  const design = designMatrix(months ? ['month', 'level'] : ['level'], {
    level: { levels: names, values },
    month: monthsOf,
  });
  const fit = fitGlm(
    {
      design,
      y: trips.map(({ row }) => row.bites_on_effort),
      offset: trips.map(({ row }) => Math.log(row.line_hours)),
    },
    { name: 'poisson' },
  );
  if (fit.kind !== 'fitted') return fit.reason;
  // A level that only one month has cannot be told from it; what is left would be another question.
  if (fit.aliased.length > 0) return 'Some levels were met in one month only.';
  const covariance = clusterCovariance(
    fit,
    trips.map(({ trip }) => trip.trip_id),
    'CR2',
  );
  if ('reason' in covariance) return covariance.reason;
  const places = fit.names.flatMap((name, at) =>
    names.slice(1).some((level) => name === `level${level}`) ? [at] : [],
  );
  const contrasts = places.map((place) => {
    const contrast = new Float64Array(fit.names.length);
    contrast[place] = 1;
    return contrast;
  });
  const test = waldTest(covariance, contrasts);
  if (test.kind !== 'wald') return test.reason;
  return test.f.kind === 'f' ? test.f.p : test.f.reason;
}

function bitesOf(rows: readonly TripBites[]): number {
  return rows.reduce((sum, { row }) => sum + row.bites_on_effort, 0);
}
