import { UserError } from '../base/problem.ts';
import { RecordAssembler } from './assemble-records.ts';
import { splitRecord, splitRecords, type TextRecord } from './csv-records.ts';
import type { HeaderPlan, HeaderReader } from './header-plan.ts';
import { noHeaderRow, tooManyColumns } from './messages-headers.ts';
import { unitsRow, withUnits } from './units-row.ts';

/** The delimiters a log may use, the likelier first. */
const DELIMITERS = [',', ';', '\t', '|'] as const;
/** A title or two may stand above the header; a table that begins further down is not looked for. */
const MOST_ROWS_ABOVE_HEADER = 25;
const MOST_COLUMNS = 1000;

/** How the cells of a file are separated, and what its header row says. */
export interface SniffedTable {
  readonly delimiter: string;
  readonly plan: HeaderPlan;
  /** The first physical line after the header row. */
  readonly firstLine: number;
  /** Rows around the header that are no entries: a title above it, a row of units below. */
  readonly strays: readonly StrayRecord[];
}

/** A record that is no entry, and what it is. */
export interface StrayRecord extends TextRecord {
  readonly kind: 'title' | 'units';
}

/**
 * Finds the delimiter and the header row in the first lines of a file: the reading in which one
 * row names the most columns of this kind of file. A first line `sep=;`, which some spreadsheets
 * write, settles the delimiter. Throws a `UserError` (exit code 3) where no row is a header.
 */
export function sniffTable(
  lines: readonly string[],
  name: string,
  reader: HeaderReader,
): SniffedTable {
  const told = /^"?sep=(.)"?\s*$/i.exec(lines[0] ?? '')?.[1];
  const skipped = told === undefined ? 0 : 1;
  const readings = (told === undefined ? DELIMITERS : [told]).map((delimiter) => ({
    delimiter,
    records: firstRecords(lines.slice(skipped), delimiter, skipped + 1),
  }));
  return bestTable(readings, name, reader);
}

/** Finds the header row in the first rows of a sheet, whose cells are already apart. */
export function sniffSheet(
  records: readonly TextRecord[],
  name: string,
  reader: HeaderReader,
): SniffedTable {
  return bestTable([{ delimiter: '', records }], name, reader);
}

function bestTable(
  readings: readonly { delimiter: string; records: readonly TextRecord[] }[],
  name: string,
  reader: HeaderReader,
): SniffedTable {
  type Best = (typeof readings)[number] & { row: number; score: number };
  let best: Best | null = null;
  for (const { delimiter, records } of readings) {
    records.forEach((record, row) => {
      if (row > MOST_ROWS_ABOVE_HEADER || record.quotes === 'broken') return;
      const score = reader.score(record.cells);
      if (score > (best?.score ?? 0)) best = { delimiter, row, score, records };
    });
  }
  // The compiler does not see the assignment inside the callback.
  const found = best as Best | null;
  const header = found?.records[found.row];
  if (found === null || header === undefined) {
    const required = reader.specs.filter((spec) => spec.required).map((spec) => spec.name);
    throw new UserError(noHeaderRow(name, required), 3);
  }
  const named = lastNamed(header.cells) + 1;
  if (named > MOST_COLUMNS) throw new UserError(tooManyColumns(name, named, MOST_COLUMNS), 3);
  const headers = header.cells.slice(0, MOST_COLUMNS).map(bareHeader);
  const below = found.records.slice(found.row + 1);
  const plan = reader.plan({
    name,
    line: header.line,
    headers,
    below: below.map((record) => record.cells),
  });
  const titles = found.records.slice(0, found.row).map((r) => ({ ...r, kind: 'title' as const }));
  const [next] = below;
  const units = next === undefined ? null : unitsRow(plan.columns, next.cells);
  if (next === undefined || units === null) {
    return { delimiter: found.delimiter, plan, firstLine: header.lastLine + 1, strays: titles };
  }
  return {
    delimiter: found.delimiter,
    plan: { ...plan, columns: withUnits(plan.columns, units) },
    firstLine: next.lastLine + 1,
    strays: [...titles, { ...next, kind: 'units' }],
  };
}

function firstRecords(lines: readonly string[], delimiter: string, firstLine: number) {
  const assembler = new RecordAssembler(
    {
      delimiter,
      width: null,
      split: (text) => splitRecord(text, delimiter),
      isRow: () => false,
    },
    firstLine,
  );
  const assembled = [...assembler.take(lines), ...assembler.finish()];
  return splitRecords(assembled, delimiter);
}

function lastNamed(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => bareHeader(cell) !== '');
}

function bareHeader(cell: string): string {
  return cell.replace(/[\uFEFF\u200B]/g, '').trim();
}
