import type { RowCells } from './row-cells.ts';
import type { Placed } from './rows.ts';

/** For each column of a row, the function that reads it. */
export type FieldReaders<Row extends Placed> = {
  readonly [Column in Exclude<keyof Row, 'line'>]: () => Row[Column];
};

/** Binds the readers of a row's columns together; the result reads the row at hand. */
export function rowReader<Row extends Placed>(
  cells: RowCells,
  fields: FieldReaders<Row>,
): () => Row {
  const columns = Object.entries<() => unknown>(fields);
  return () => {
    const row: Record<string, unknown> = { line: cells.line };
    for (const [column, read] of columns) row[column] = read();
    // The fields' type has every column of the row with its own type.
    return row as unknown as Row;
  };
}
