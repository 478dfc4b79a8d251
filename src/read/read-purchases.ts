import type { ChoiceWords } from './cell-choice.ts';
import type { BaitBuyRow, SpoolRow } from './rows.ts';
import type { TableColumns } from './table-columns.ts';
import type { TripIndex } from './trip-index.ts';

/** What a yes/no cell may say. */
const YES_NO_WORDS: ChoiceWords<'yes' | 'no'> = {
  yes: ['y', 'true', 't', '1', 'x', 'oui', 'si', '✓', '✔', 'yep'],
  no: ['n', 'false', 'f', '0', 'non', 'nope'],
};

/** Binds the columns of `spools.csv`; the result reads the row at hand. */
export function spoolReader(columns: TableColumns): () => SpoolRow {
  const read = {
    rod: columns.requiredWord('rod'),
    date: columns.requiredDate('date'),
    line_type: columns.requiredListed('line_type'),
    line_class_lb: columns.number('line_class_lb'),
    cost: columns.number('cost'),
    reason: columns.word('reason'),
    notes: columns.notes(),
  };
  return () => ({
    line: columns.cells.line,
    rod: read.rod(),
    date: read.date(),
    line_type: read.line_type(),
    line_class_lb: read.line_class_lb(),
    cost: read.cost(),
    reason: read.reason(),
    notes: read.notes(),
  });
}

/** Binds the columns of `bait-buys.csv`; the result reads the row at hand. */
export function baitBuyReader(columns: TableColumns, trips: TripIndex): () => BaitBuyRow {
  const ranOut = columns.choice('ran_out', YES_NO_WORDS);
  const read = {
    date: columns.requiredDate('date'),
    bait: columns.requiredListed('bait'),
    count: columns.requiredNumber('count'),
    unit_cost: columns.number('unit_cost'),
    died: columns.number('died'),
    ran_out: () => {
      const word = ranOut();
      return word === null ? null : word === 'yes';
    },
    trip_id: columns.cells.optional('trip_id', trips.reader('purchase')),
    source: columns.word('source'),
    notes: columns.notes(),
  };
  return () => ({
    line: columns.cells.line,
    date: read.date(),
    bait: read.bait(),
    count: read.count(),
    unit_cost: read.unit_cost(),
    died: read.died(),
    ran_out: read.ran_out(),
    trip_id: read.trip_id(),
    source: read.source(),
    notes: read.notes(),
  });
}
