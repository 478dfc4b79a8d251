import { perLineHour } from '../estimate/per-line-hour.ts';
import { borrowedCorrelation, isProportion, proportionOf } from '../estimate/proportion.ts';
import { MEASURE_NAMES, type Measure } from '../tally/measures.ts';
import { type TallyRow, talliesOf } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { EffortBasis } from './effort-basis.ts';
import { count, countFromOne } from './fields-figures.ts';
import type { ShareTrip } from './share-trip.ts';
import type { SharedTable } from './table-schema.ts';

/** A rate over every trip of a package, as pooling needs it. */
export interface SharedRate {
  readonly measure: Measure;
  readonly numerator: number;
  /** Bites or hooked fish; line-hours, to a tenth, where the measure is a rate. */
  readonly denominator: number;
  readonly trips: number;
  /** How much trips vary beyond chance, 1 or more; null where one trip, or too few events, cannot show it. */
  readonly designEffect: number | null;
}

/** The rates of the trips in the rows; those per line-hour only where effort is in line-hours. */
export function sharedRates(
  season: TidySeason,
  trips: readonly ShareTrip[],
  basis: EffortBasis,
): SharedRate[] {
  const ids = new Set(trips.map((trip) => trip.trip_id));
  const tallies = talliesOf(season, { by: [], only: {}, from: null, to: null });
  const rows = (tallies.objects() as TallyRow[]).filter((row) => ids.has(row.trip_id));
  return MEASURE_NAMES.flatMap((measure) => {
    if (!isProportion(measure) && basis !== 'line-hours') return [];
    const figure = isProportion(measure)
      ? proportionOf(measure, rows, {
          level: LEVEL,
          correlation: borrowedCorrelation(measure, rows),
        })
      : perLineHour(measure, rows, { level: LEVEL, seed: 1 });
    const { numerator, denominator, trips: counted, design_effect } = figure;
    if (denominator <= 0) return [];
    const designEffect = design_effect === null ? null : Math.round(100 * design_effect) / 100;
    return [
      {
        measure,
        numerator,
        denominator: Math.round(10 * denominator) / 10,
        trips: counted,
        designEffect,
      },
    ];
  });
}

/** Design effects do not depend on the level that the interval they come with has. */
const LEVEL = 0.95;

/** The table of rates. */
export function ratesTable(rows: readonly SharedRate[]): SharedTable<SharedRate> {
  return {
    name: 'rates',
    title: 'Rates over the rows of this package',
    description:
      'Counts over everything in the rows, with how much trips vary beyond chance; enough to pool ' +
      'this package with others.',
    primaryKey: ['measure'],
    rows,
    fields: [
      {
        name: 'measure',
        type: 'string',
        description: 'What is counted over what.',
        constraints: { required: true, enum: [...MEASURE_NAMES] },
        cell: (row) => row.measure,
      },
      count(
        'numerator',
        'Events; per line-hour only those on recorded effort.',
        (row) => row.numerator,
      ),
      {
        name: 'denominator',
        type: 'number',
        description: 'Bites, hooked fish or line-hours, whichever the measure divides by.',
        constraints: { required: true, minimum: 0 },
        cell: (row) => row.denominator,
      },
      countFromOne('trips', 'Trips with something in the denominator.', (row) => row.trips),
      {
        name: 'design_effect',
        type: 'number',
        description:
          'Variance with trips as the unit that repeats, over the variance if every bite stood ' +
          'alone; 1 or more; empty where one trip, or too few events, cannot show it.',
        constraints: { minimum: 1 },
        cell: (row) => row.designEffect,
      },
    ],
  };
}
