import type { Placed } from './rows.ts';

/** Remembers the rows of a file, to find one that is the same in every cell. */
export class TwinRows<Row extends Placed> {
  readonly #rows = new Map<number, Row>();
  readonly #isSame: (a: Row, b: Row) => boolean;

  /** `isSame` compares what was read of two rows, for fingerprints may collide. */
  constructor(isSame: (a: Row, b: Row) => boolean = isSameRow) {
    this.#isSame = isSame;
  }

  /**
   * The earlier row that is the same in every cell as this one, or null; this one is remembered.
   * `texts` are the cells as they stand, `row` what was read of them.
   */
  find(row: Row, texts: readonly string[]): Row | null {
    const key = fingerprint(texts);
    const earlier = this.#rows.get(key);
    if (earlier === undefined) {
      this.#rows.set(key, row);
      return null;
    }
    return this.#isSame(earlier, row) ? earlier : null;
  }
}

/** Whether two rows read the same in every column; the lines they stand on aside. */
export function isSameRow<Row extends Placed>(a: Row, b: Row): boolean {
  const columns = Object.keys(a) as (keyof Row)[];
  return columns.every((column) => column === 'line' || a[column] === b[column]);
}

/** A 52-bit fingerprint of the cells of a row, outer spaces aside. */
function fingerprint(texts: readonly string[]): number {
  let high = 0x811c9dc5;
  let low = 0x01000193;
  let end = texts.length;
  while (end > 0 && (texts[end - 1] ?? '').trim() === '') end--;
  for (let i = 0; i < end; i++) {
    const text = (texts[i] ?? '').trim();
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      high = Math.imul(high ^ code, 0x01000193);
      low = Math.imul(low ^ code, 0x5bd1e995) ^ (low >>> 13);
    }
    high = Math.imul(high ^ 0x1f, 0x01000193);
    low = Math.imul(low ^ 0x1f, 0x5bd1e995) ^ (low >>> 15);
  }
  return (high >>> 0) * 0x100000 + (low >>> 12);
}
