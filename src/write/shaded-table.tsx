import { printable } from '../base/words.ts';

/** A row of a shaded table. */
export interface ShadedRow {
  readonly name: string;
  /** Text of each cell, and how dark it is, from 0 to 1. */
  readonly cells: readonly { readonly text: string; readonly share: number }[];
}

interface ShadedTableProps {
  /** Unique on its page. */
  readonly id: string;
  readonly caption: string;
  /** Head of the first column. */
  readonly corner: string;
  readonly heads: readonly string[];
  readonly rows: readonly ShadedRow[];
}

const SHADES = 5;

/** A table of numbers whose ground says the same as they do; it scrolls where it is too wide. */
export function ShadedTable({ id, caption, corner, heads, rows }: ShadedTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by key
    <section class="scroll" aria-labelledby={`${id}-caption`} tabIndex={0}>
      <table class="shaded">
        <caption id={`${id}-caption`}>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{corner}</th>
            {heads.map((head) => (
              <th scope="col" class="number" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, cells }) => (
            <tr key={name}>
              <th scope="row">
                <bdi>{printable(name)}</bdi>
              </th>
              {cells.map(({ text, share }, at) => (
                <td
                  class={`number shade${Math.ceil(share * SHADES)}`}
                  key={heads[at] ?? String(at)}
                >
                  {text}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
