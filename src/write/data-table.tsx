import type { ComponentChildren, VNode } from 'preact';
import { formatCount } from '../base/format-number.ts';
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
  /** Whether it is mostly sentences: on a phone each row then becomes a card of its own. */
  readonly wordy?: boolean;
}

/** More rows than this weigh a page down; the CSV file beside it has them all. */
const MOST_ROWS = 100;

/** The table as markup, in a region of its own that scrolls where the page is too narrow. */
export function tableView<Row>(table: DataTable<Row>): VNode {
  const { id, caption, columns, rows, thin, wordy } = table;
  const role = wordy === true ? SAID : UNSAID;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by key
    <section class="scroll" aria-labelledby={`${id}-caption`} tabIndex={0}>
      <table {...role('table')} class={wordy === true ? 'wordy' : undefined}>
        <caption id={`${id}-caption`}>
          {caption}
          {rows.length > MOST_ROWS && ` ${cutWords(rows.length)}`}
        </caption>
        <thead {...role('rowgroup')}>
          <tr {...role('row')}>
            {columns.map(({ head, kind }) => (
              <th
                scope="col"
                {...role('columnheader')}
                class={kind === 'number' ? 'number' : undefined}
                key={head}
              >
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody {...role('rowgroup')}>
          {rows.slice(0, MOST_ROWS).map((row, at) => (
            <tr {...role('row')} class={thin?.(row) === true ? 'thin' : undefined} key={String(at)}>
              {columns.map((column, c) => (
                <Cell column={column} isHead={c === 0} role={role} key={column.head}>
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

function cutWords(rows: number): string {
  return `The first ${formatCount(MOST_ROWS)} of ${formatCount(rows)} rows; the file has them all.`;
}

/** The same table as CSV: raw numbers, one header a value. */
export function tableCsv<Row>({ columns, rows }: DataTable<Row>): string {
  const fields = columns.flatMap((column) => column.csv);
  return csvText(
    fields.map((field) => field.head),
    rows.map((row) => fields.map((field) => field.value(row))),
  );
}

type Role = 'table' | 'rowgroup' | 'row' | 'columnheader' | 'rowheader' | 'cell';
type RoleOf = (role: Role) => { readonly role?: Role };

/** Said aloud where rows may be set as cards, which would else no longer be heard as a table. */
const SAID: RoleOf = (role) => ({ role });
const UNSAID: RoleOf = () => ({});

interface CellProps {
  readonly column: { readonly kind: 'text' | 'number'; readonly head: string };
  readonly isHead: boolean;
  readonly role: RoleOf;
  readonly children: ComponentChildren;
}

function Cell({ column, isHead, role, children }: CellProps) {
  const { kind, head } = column;
  if (isHead) {
    return (
      <th scope="row" {...role('rowheader')}>
        {children}
      </th>
    );
  }
  return (
    <td
      {...role('cell')}
      class={kind === 'number' ? 'number' : 'long'}
      data-head={role === SAID ? head : undefined}
    >
      {children}
    </td>
  );
}
