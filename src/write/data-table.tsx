import type { ComponentChildren, VNode } from 'preact';
import { printable } from '../base/words.ts';
import { type CsvValue, csvText } from './csv.ts';

/** A column of a table: what the page shows, and the raw values for the CSV file beside it. */
export interface Column<Row> {
  /** Heading with the unit. */
  readonly head: string;
  readonly kind: 'text' | 'number';
  readonly cell: (row: Row) => string;
  readonly csv: readonly {
    readonly head: string;
    readonly value: (row: Row) => CsvValue;
  }[];
}

/** A table: the first column names the row. */
export interface DataTable<Row> {
  /** Unique on its page. */
  readonly id: string;
  /** What the table holds and how it is sorted, in a sentence or two. */
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  /** Whether a row rests on too little and is greyed. */
  readonly thin?: (row: Row) => boolean;
}

/** The table as markup, in a region of its own that scrolls where the page is too narrow. */
export function tableView<Row>(table: DataTable<Row>): VNode {
  const { id, caption, columns, rows, thin } = table;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by key
    <section class="scroll" aria-labelledby={`${id}-caption`} tabIndex={0}>
      <table>
        <caption id={`${id}-caption`}>{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ head, kind }) => (
              <th scope="col" class={kind === 'number' ? 'number' : undefined} key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, at) => (
            <tr class={thin?.(row) === true ? 'thin' : undefined} key={String(at)}>
              {columns.map((column, c) => (
                <Cell column={column} isHead={c === 0} key={column.head}>
                  <bdi>{printable(column.cell(row))}</bdi>
                </Cell>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The same table as CSV: raw numbers, one header a value. */
export function tableCsv<Row>({ columns, rows }: DataTable<Row>): string {
  const fields = columns.flatMap((column) => column.csv);
  return csvText(
    fields.map((field) => field.head),
    rows.map((row) => fields.map((field) => field.value(row))),
  );
}

interface CellProps {
  readonly column: { readonly kind: 'text' | 'number' };
  readonly isHead: boolean;
  readonly children: ComponentChildren;
}

function Cell({ column, isHead, children }: CellProps) {
  if (isHead) return <th scope="row">{children}</th>;
  return <td class={column.kind === 'number' ? 'number' : 'long'}>{children}</td>;
}
