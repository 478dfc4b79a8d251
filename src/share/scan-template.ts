import { cellAt } from './cwp-grid.ts';
import type { EffortBasis } from './effort-basis.ts';
import { type GroupFigures, groupFigures } from './group-figures.ts';
import type { PackageAccount } from './package-account.ts';
import { packageFiles } from './package-files.ts';
import type { Period } from './period.ts';
import type { ShareChoices } from './share-options.ts';
import type { SharedPackage } from './shared-package.ts';
import type { SharedFile } from './table-schema.ts';
import { TRIP_TIMES } from './trip-classes.ts';
import type { TripShareRow } from './trip-rows.ts';

/**
 * The words that every package of these choices holds, whatever the log: packages of made-up rows,
 * one for each thing that can be said. A word that stands in them says nothing of the log, and cannot
 * be told from the same word of the log. Terms of the owner's own are no part of them.
 */
export function templateText(choices: ShareChoices): SharedFile {
  const files = templateFiles(choices);
  // The packages have most of their text in common; each piece is looked at once.
  const pieces = files.flatMap(({ name, text }) => [name, ...text.split(/(?<=>)|\n/)]);
  return { name: 'template', text: [...new Set(pieces)].join('\n'), resource: null };
}

function templateFiles(choices: ShareChoices): SharedFile[] {
  const licence = choices.licence?.name === undefined ? null : choices.licence;
  const plain: ShareChoices = { ...choices, licence };
  const { thresholds } = choices;
  const noise = { epsilon: 1, clip: 10 };
  const variants: ShareChoices[] = [
    { ...plain, consent: true },
    { ...plain, consent: false, licence: null, noise },
    { ...plain, consent: false, noise: null, thresholds: { ...thresholds, minVessels: 2 } },
  ];
  const bases: readonly EffortBasis[] = ['line-hours', 'hours', 'trips'];
  const shared = variants.flatMap((variant, at): SharedPackage[] => {
    const common = {
      choices: variant,
      basis: bases[at] ?? 'trips',
      isAssumed: true,
      rates: [
        {
          measure: 'hookup_rate' as const,
          numerator: 0,
          denominator: 1,
          trips: 1,
          designEffect: 1,
        },
      ],
      vessels: [],
      valuesLookedFor: at,
    };
    const { gear } = variant;
    const cells = {
      tier: 'cells' as const,
      rows: twice({ ...NO_FISH, ...PLACE, gear, period: PERIOD, catches: new Map() }),
      totals: [{ ...NO_FISH, period: null }],
    };
    const trips = { tier: 'trips' as const, rows: twice({ ...NO_TRIP, ...PLACE, gear }) };
    return [
      { ...common, content: cells, account: cellAccount(at) },
      { ...common, content: trips, account: tripAccount(at) },
    ];
  });
  return shared.flatMap((one) => packageFiles(one, 1));
}

const PERIOD: Period = { year: 1, month: 1, months: 1 };
const PLACE = { cell: cellAt(0, 0, 5) };
const NO_FISH: GroupFigures = groupFigures([]);
const NO_TRIP: Omit<TripShareRow, 'cell' | 'gear'> = {
  trip: '',
  vessel: '',
  ...PERIOD,
  week: null,
  wind: null,
  hours: 0,
  lineHours: 0,
  missed: 0,
  catches: new Map(),
};

/** Two rows alike, so that what they have in common is said. */
function twice<Row>(row: Row): readonly Row[] {
  return [row, row];
}

const LEFT_OUT: readonly PackageAccount['leftOut'][] = [
  { kind: 'none' },
  { kind: 'untold' },
  { kind: 'trips', trips: 1 },
];

function cellAccount(count: number): PackageAccount {
  const cells = {
    merged: count,
    totals: count,
    totalsWithheld: count,
    smallestRest: count === 0 ? null : count,
  };
  return { ...account(count), cells, classes: null };
}

function tripAccount(count: number): PackageAccount {
  const time = TRIP_TIMES[count] ?? 'month';
  const detail = { time, gridDeg: 5 as const, withWind: count > 0 };
  const classes = { detail, classes: count, k: count, l: count, isCoarser: count > 0 };
  return { ...account(count), cells: null, classes };
}

function account(count: number) {
  const leftOut = LEFT_OUT[count] ?? { kind: 'trips' as const, trips: count };
  return {
    trips: count,
    vessels: count,
    span: null,
    smallest: { trips: count, vessels: count },
    leftOut,
  };
}
