import type { HeaderReader, PlannedColumn } from './header-plan.ts';
import type { FileLedger } from './ledger-file.ts';
import type { Message } from './messages-cells.ts';
import * as say from './messages-tables.ts';
import type { Table } from './open-table.ts';

/** What the notes about a file rest on. */
interface NoteContext {
  readonly reader: HeaderReader;
  readonly ledger: FileLedger;
  /** Whether a column without a meaning of its own is read all the same. */
  readonly isRead: (index: number) => boolean;
}

/**
 * Notes, once the rows have been read, what concerns a file as a whole: columns that are not known,
 * units converted or assumed, header maps that fit nothing, bytes that are no text.
 */
export function noteTable(table: Table, { reader, ledger, isRead }: NoteContext): void {
  const { plan, counts, badBytes, encoding } = table;
  const note = (effect: 'repaired' | 'warned', column: string | null, message: Message) =>
    ledger.note(effect, { line: null, column, received: column ?? '' }, message);
  plan.columns.forEach((column, index) => {
    const isUsed = isRead(index) || (column.header === '' && ledger.recorded(index) === 0);
    const message = isUsed ? null : messageOn(column, index, reader);
    if (message !== null) note(message.effect, column.header || null, message);
  });
  for (const header of reader.ownHeadersMissing(plan)) {
    note('warned', header, say.mappedHeaderMissing(header));
  }
  if (badBytes > 0) note('warned', null, say.bytesUnreadable(badBytes, encoding));
  if (counts.nuls > 0) note('repaired', null, say.nulsDropped(counts.nuls));
}

function messageOn({ header, meaning }: PlannedColumn, index: number, reader: HeaderReader) {
  const warned = (message: Message) => ({ effect: 'warned' as const, ...message });
  if (meaning === null) {
    if (reader.ignores(header)) return null;
    return warned(
      header === ''
        ? say.columnWithoutHeader(index + 1)
        : say.columnUnknown(header, reader.nearestColumn(header)),
    );
  }
  const { spec, unit, unitAssumed } = meaning;
  if (unitAssumed && spec.unit !== undefined)
    return warned(say.unitAssumed(header, spec.name, unit ?? spec.unit));
  if (unit === null || unit === spec.unit) return null;
  return { effect: 'repaired' as const, ...say.unitConverted(header, spec.name, unit) };
}
