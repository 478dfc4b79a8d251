import { plural, sentenceCase } from '../base/words.ts';
import { type Column, tableView } from '../write/data-table.tsx';
import { type Entry, EntrySection } from '../write/entry.tsx';
import { pageHtml } from '../write/page-shell.tsx';
import { leftOutWords } from './disclosure-record.ts';
import { methodWords, PACKAGE_TITLE, rowsWords, thresholdWords } from './package-words.ts';
import { type ColumnFate, columnFates } from './quasi-identifiers.ts';
import type { SharedPackage } from './shared-package.ts';
import type { SharedFile, SharedTable } from './table-schema.ts';

/** Name of the report in a package's folder. */
export const DISCLOSURE_PAGE = 'disclosure.html';

/** More rows than this are looked through in the CSV. */
const MOST_ROWS = 400;

/**
 * The disclosure report for people: what is in the package, what was merged or left out, what
 * subtraction would show, what became of every column, and what the scan looked for.
 *
 * @param main the table whose rows are shown line by line.
 */
export function disclosurePage<Row>(
  shared: SharedPackage,
  main: SharedTable<Row>,
  fileNames: readonly string[],
): SharedFile {
  const { span } = shared.account;
  const entries = [
    insideEntry(shared, main),
    leftOutEntry(shared),
    subtractionEntry(shared),
    columnsEntry(shared),
    scanEntry(shared, fileNames),
    methodEntry(shared),
  ];
  const text = pageHtml(
    {
      file: DISCLOSURE_PAGE,
      season: PACKAGE_TITLE,
      dates: span === null ? 'no rows' : span[0] === span[1] ? span[0] : `${span[0]} to ${span[1]}`,
      pages: [{ file: DISCLOSURE_PAGE, title: 'What this package discloses' }],
    },
    entries.map((entry) => <EntrySection entry={entry} key={entry.id} />),
  );
  return {
    name: DISCLOSURE_PAGE,
    text,
    resource: {
      name: 'disclosure-page',
      path: DISCLOSURE_PAGE,
      title: 'Disclosure report',
      format: 'html',
      mediatype: 'text/html',
      encoding: 'utf-8',
    },
  };
}

function insideEntry<Row>(shared: SharedPackage, main: SharedTable<Row>): Entry {
  const shown = main.rows.slice(0, MOST_ROWS);
  const { same, differing } = fieldsOf(main);
  const [first] = main.rows;
  const sameWords = same.map((field) => {
    const cell = first === undefined ? null : field.cell(first);
    return `${field.name} ${cell ?? 'empty'}`;
  });
  const columns = differing.map((field): Column<Row> => {
    const kind = field.type === 'string' ? 'text' : 'number';
    return { head: field.name, kind, cell: (row) => String(field.cell(row) ?? ''), csv: [] };
  });
  return {
    id: 'inside',
    question: 'What is in it?',
    answer: `${sentenceCase(rowsWords(shared))}.`,
    asides: [
      ...(same.length > 0 ? [`The same in every row: ${sameWords.join(', ')}.`] : []),
      `Shown here: ${plural(shown.length, 'row')} of the ${plural(main.rows.length, 'row')} in ${main.name}.csv.`,
    ],
    table: {
      view: tableView({ id: 'rows', caption: main.description, columns, rows: shown }),
      csv: `${main.name}.csv`,
      label: 'Line by line',
      open: true,
    },
  };
}

/** Columns that hold one thing throughout, which need not be shown in every row, and the others. */
function fieldsOf<Row>({ fields, rows }: SharedTable<Row>) {
  const isSame = (field: (typeof fields)[number]) =>
    rows.length > 1 && new Set(rows.map((row) => field.cell(row))).size === 1;
  return { same: fields.filter(isSame), differing: fields.filter((field) => !isSame(field)) };
}

function leftOutEntry(shared: SharedPackage): Entry {
  const { account } = shared;
  const merged = account.cells?.merged ?? 0;
  return {
    id: 'left-out',
    question: 'What was merged, and what was left out?',
    answer: leftOutWords(shared),
    asides: [
      thresholdWords(shared),
      'Whether that is enough is for the rules of the body that gets it, and the law on personal ' +
        'data, to say: check the current text.',
      `The smallest group in the package: ${plural(account.smallest.trips, 'trip')} of ` +
        `${plural(account.smallest.vessels, 'vessel')}.`,
      ...(merged > 0
        ? [
            `${plural(merged, 'row stands', 'rows stand')} for a larger cell, because a smaller one held too little.`,
          ]
        : []),
    ],
  };
}

function subtractionEntry({ account }: SharedPackage): Entry {
  const { cells, classes } = account;
  if (classes !== null) {
    const { detail, k, l } = classes;
    const wind = detail.withWind ? ', cell and wind' : ' and cell';
    return {
      id: 'alike',
      question: 'Can one trip be told from the others?',
      answer: `Each trip is alike in time${wind} to at least ${k - 1} others, of ${l} or more sizes of catch.`,
      asides: [
        `Told of each trip: its ${detail.time}, its cell of ${detail.gridDeg} degree.`,
        'For researchers who agreed not to look for boats and clients.',
      ],
    };
  }
  const rest = cells?.smallestRest ?? null;
  return {
    id: 'subtraction',
    question: 'Can anything be worked out by subtracting?',
    answer:
      rest === null
        ? 'Totals less rows leave nothing over.'
        : `Totals less rows show groups of ${rest} trips or more, which could stand as rows themselves.`,
    asides: [
      `${plural(cells?.totals ?? 0, 'total')} given, ${cells?.totalsWithheld ?? 0} withheld.`,
      'Held against every package that left before, by the ledger that stays with the owner.',
    ],
  };
}

function columnsEntry(shared: SharedPackage): Entry {
  const columns: readonly Column<ColumnFate>[] = [
    { head: 'in the log', kind: 'text', cell: (row) => row.columns, csv: [] },
    { head: 'in the package', kind: 'text', cell: (row) => row.became, csv: [] },
  ];
  const rows = columnFates(shared);
  return {
    id: 'columns',
    question: 'What became of what could point to somebody?',
    answer: 'No name, note, ground, exact place or exact time is in it.',
    table: {
      view: tableView({ id: 'fates', caption: 'By kind of column.', columns, rows, wordy: true }),
      csv: 'disclosure.json',
      label: 'Column by column',
      open: true,
    },
  };
}

function scanEntry({ valuesLookedFor }: SharedPackage, fileNames: readonly string[]): Entry {
  return {
    id: 'scan',
    question: 'Was every byte looked at?',
    answer: `${plural(valuesLookedFor, 'identifying value')} of the log were looked for in ${plural(fileNames.length, 'file')}. None was found.`,
    asides: [
      'Names, ids and words of notes in any spelling of Unicode, coordinates and dates and clock ' +
        'times in any usual form. Numbers of fewer than six digits cannot be told from counts; no ' +
        'column of the package holds an id.',
      `Files: ${fileNames.join(', ')}.`,
    ],
  };
}

function methodEntry(shared: SharedPackage): Entry {
  const { licence } = shared.choices;
  return {
    id: 'method',
    question: 'How did the figures come about?',
    answer:
      licence === null ? 'No licence was given.' : `Licence: ${licence.name ?? licence.path}.`,
    asides: [methodWords(shared)],
  };
}
