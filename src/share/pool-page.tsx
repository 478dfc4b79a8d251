import { formatDecimal } from '../base/format-number.ts';
import { listWords, plural } from '../base/words.ts';
import { type Column, type DataTable, tableCsv, tableView } from '../write/data-table.tsx';
import { type Entry, EntrySection } from '../write/entry.tsx';
import type { TextFile } from '../write/new-files.ts';
import { pageHtml } from '../write/page-shell.tsx';
import { poolEntry } from './pool-entry.ts';
import type { PoolPackage } from './pool-package.ts';
import type { PooledMeasure } from './pool-rates.ts';

/** Name of the page. */
export const POOL_PAGE = 'pool.html';

/** The page of several packages together, with a CSV beside it for every table. */
export async function poolPages(
  packages: readonly PoolPackage[],
  pooled: readonly PooledMeasure[],
  level: number,
): Promise<TextFile[]> {
  const made: Awaited<ReturnType<typeof poolEntry>>[] = [];
  for (const one of pooled) made.push(await poolEntry(one, level));
  const table = packagesTable(packages);
  const csv = 'pool-packages.csv';
  const entries = [
    ...made.map(({ entry }) => entry),
    packagesEntry(packages, { view: tableView(table), csv }),
    methodEntry(level),
  ];
  const html = pageHtml(
    {
      file: POOL_PAGE,
      season: `${plural(packages.length, 'package')} together`,
      dates: monthsWords(packages),
      pages: [{ file: POOL_PAGE, title: 'Boats together' }],
    },
    entries.map((entry) => <EntrySection entry={entry} key={entry.id} />),
  );
  return [
    { name: POOL_PAGE, text: html },
    ...made.flatMap(({ files }) => files),
    { name: csv, text: tableCsv(table) },
  ];
}

/** What the reader must know of these packages as a set. */
export function poolWarnings(packages: readonly PoolPackage[]): string[] {
  const gears = [...new Set(packages.map(({ about }) => about.gear))].sort();
  const assumed = packages.filter(({ about }) => about.assumed_effort).map(({ label }) => label);
  const unlicensed = packages.filter(({ licence }) => licence === null).map(({ label }) => label);
  return [
    ...(gears.length > 1
      ? [
          `They fish different gears, ${listWords(gears)}: a rate per line-hour may mean different things.`,
        ]
      : []),
    ...(assumed.length > 0
      ? [`Some line-hours of ${listWords(assumed)} are hours fished times lines fished.`]
      : []),
    ...(unlicensed.length > 0
      ? [
          `${listWords(unlicensed)}: no licence was given; ask the owner before you pass anything on.`,
        ]
      : []),
  ];
}

function packagesEntry(
  packages: readonly PoolPackage[],
  table: NonNullable<Entry['table']>,
): Entry {
  const trips = packages.reduce((sum, { about }) => sum + about.trips, 0);
  return {
    id: 'packages',
    question: 'What was put together?',
    answer: `${plural(packages.length, 'package')} with ${plural(trips, 'trip')}.`,
    asides: [
      'Every package was checked: its version, its checksums, each cell against its schema, and ' +
        'whether a vessel is in two of them in the same month under one pseudonym.',
      ...poolWarnings(packages),
    ],
    table: { ...table, open: true, label: 'Package by package' },
  };
}

function methodEntry(level: number): Entry {
  return {
    id: 'method',
    question: 'How did the figures come about?',
    answer: 'From what the packages hold, and nothing else.',
    asides: [
      'Shares were pooled as log odds, rates per line-hour as logarithms. A package’s variance is ' +
        'that of its counts times its own design effect, so that fish of one day do not count as ' +
        'many. The variance between boats is by restricted maximum likelihood (Viechtbauer 2005), ' +
        `the ${formatDecimal(100 * level, 0)} % interval of the mean by Knapp and Hartung (2003, modified), ` +
        'where one more boat would lie by Higgins, Thompson and Spiegelhalter (2009).',
    ],
  };
}

function packagesTable(packages: readonly PoolPackage[]): DataTable<PoolPackage> {
  const text = (head: string, of: (one: PoolPackage) => string): Column<PoolPackage> => {
    return { head, kind: 'text', cell: of, csv: [{ head: head.replaceAll(' ', '_'), value: of }] };
  };
  const number = (head: string, of: (one: PoolPackage) => number): Column<PoolPackage> => {
    const cell = (one: PoolPackage) => String(of(one));
    return { head, kind: 'number', cell, csv: [{ head, value: of }] };
  };
  return {
    id: 'packages-table',
    caption: 'The name of a package is that of its folder.',
    columns: [
      text('package', (one) => one.label),
      number('trips', (one) => one.about.trips),
      number('vessels', (one) => one.about.vessels.length),
      text('months', (one) => monthsOf([...one.months])),
      text('gear', (one) => one.about.gear),
      text('rows', (one) => (one.about.tier === 'cells' ? 'cells' : 'trips')),
      text('one owner consented', (one) => (one.about.consent.given ? 'yes' : 'no')),
      text('licence', (one) => one.licence ?? 'none given'),
    ],
    rows: packages,
  };
}

function monthsWords(packages: readonly PoolPackage[]): string {
  return monthsOf(packages.flatMap(({ months }) => [...months]));
}

function monthsOf(months: readonly string[]): string {
  const [first, last] = [[...months].sort()[0], [...months].sort().at(-1)];
  if (first === undefined || last === undefined) return 'no months';
  return first === last ? first : `${first} to ${last}`;
}
