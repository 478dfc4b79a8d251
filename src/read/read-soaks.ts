import type { SoakRow } from './rows.ts';
import type { TableColumns } from './table-columns.ts';
import type { TripIndex } from './trip-index.ts';

/** Binds the columns of `soaks.csv`; the result reads the row at hand. */
export function soakReader(columns: TableColumns, trips: TripIndex): () => SoakRow {
  const baitsUsed = columns.number('baits_used');
  const read = {
    trip_id: columns.cells.required('trip_id', trips.reader('soak'), ''),
    position: columns.requiredPosition('position'),
    bait: columns.listed('bait'),
    rod: columns.word('rod'),
    line_type: columns.listed('line_type'),
    line_class_lb: columns.number('line_class_lb'),
    hook_size: columns.hookSize('hook_size'),
    hook_model: columns.word('hook_model'),
    leader_lb: columns.number('leader_lb'),
    time_in: columns.clock('time_in'),
    time_out: columns.clock('time_out'),
    hours: columns.number('hours'),
    baits_used: () => baitsUsed() ?? 1,
    notes: columns.notes(),
  };
  return () => ({
    line: columns.cells.line,
    trip_id: read.trip_id(),
    position: read.position(),
    bait: read.bait(),
    rod: read.rod(),
    line_type: read.line_type(),
    line_class_lb: read.line_class_lb(),
    hook_size: read.hook_size(),
    hook_model: read.hook_model(),
    leader_lb: read.leader_lb(),
    time_in: read.time_in(),
    time_out: read.time_out(),
    hours: read.hours(),
    baits_used: read.baits_used(),
    notes: read.notes(),
  });
}
