import type { GroupFigures } from './group-figures.ts';
import type { SharedField } from './table-schema.ts';

/** Columns of effort and of what came of it; `F` rows hold the figures of a group of trips. */
export const FIGURE_FIELDS: readonly SharedField<GroupFigures>[] = [
  countFromOne('trips', 'Trips.', (row) => row.trips),
  countFromOne('vessels', 'Different vessels among them.', (row) => row.vessels),
  hours('hours', 'Boat-hours between lines in and lines out.', (row) => row.hours),
  hours(
    'line_hours',
    'Hours of one line fishing, over all lines, less the time a fish was on.',
    (row) => row.lineHours,
  ),
  count('bites', 'Bites: missed + hooked.', (row) => row.bites),
  count('missed', 'Bites on which the hook never came tight.', (row) => row.missed),
  count(
    'hooked',
    'Fish hooked: kept + released + lost.',
    (row) => row.kept + row.released + row.lost,
  ),
  count('kept', 'Fish brought aboard and kept.', (row) => row.kept),
  count('released', 'Fish brought to the leader or boat and let go.', (row) => row.released),
  count('lost', 'Fish hooked that came off or broke off.', (row) => row.lost),
];

/** A column of whole numbers, none below zero. */
export function count<Row>(
  name: string,
  description: string,
  cell: (row: Row) => number,
): SharedField<Row> {
  return { name, type: 'integer', description, constraints: { required: true, minimum: 0 }, cell };
}

/** A column of whole numbers that are 1 at the least. */
export function countFromOne<Row>(
  name: string,
  description: string,
  cell: (row: Row) => number,
): SharedField<Row> {
  return { ...count(name, description, cell), constraints: { required: true, minimum: 1 } };
}

function hours(
  name: string,
  description: string,
  cell: (row: GroupFigures) => number | null,
): SharedField<GroupFigures> {
  const text = `${description} To a tenth; empty where not every trip recorded it.`;
  return { name, type: 'number', description: text, constraints: { minimum: 0 }, cell };
}
