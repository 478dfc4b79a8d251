import type { ColumnSpec } from './column-spec.ts';
import { SET_ASIDE_COLUMNS } from './set-aside-table.ts';

/** The columns of `set-aside.csv` that are its own; all others are those of the rows' files. */
export const SET_ASIDE_SPECS: readonly ColumnSpec[] = SET_ASIDE_COLUMNS.map((name) =>
  name === 'file' || name === 'line'
    ? { name, kind: 'word', required: true }
    : { name, kind: 'word' },
);
