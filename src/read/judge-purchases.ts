import { judgeTwin } from './judge-twins.ts';
import type { RowCells } from './row-cells.ts';
import type { BaitBuyRow, SpoolRow } from './rows.ts';
import { TwinRows } from './twin-rows.ts';

/**
 * Judges spools and purchases of bait. They carry no time of day, so a row that is the same as
 * another may be a second filling or a second bucket; both count, with a warning.
 */
export function purchaseJudge<Row extends SpoolRow | BaitBuyRow>(cells: RowCells) {
  const twins = new TwinRows<Row>();
  return (row: Row, texts: readonly string[]): Row => {
    const twin = twins.find(row, texts);
    if (twin !== null) judgeTwin(cells, twin.line, false);
    return row;
  };
}
