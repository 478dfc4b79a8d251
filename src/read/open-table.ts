import { type Assembled, RecordAssembler, type RowShape } from './assemble-records.ts';
import type { CellKind } from './column-spec.ts';
import { splitRecord, splitRecords, type TextRecord } from './csv-records.ts';
import { decodeFile } from './decode-file.ts';
import { fileBytes } from './file-bytes.ts';
import type { FoundFile, TableFile } from './find-files.ts';
import type { HeaderPlan, HeaderReader } from './header-plan.ts';
import { sheetText } from './sheet-cell.ts';
import { type Encoding, sniffEncoding } from './sniff-encoding.ts';
import { type SniffedTable, type StrayRecord, sniffSheet, sniffTable } from './sniff-table.ts';
import { noCounts, splitLines, type TextCounts } from './split-lines.ts';
import type { Sheet } from './workbook-sheets.ts';

/** Lines, and characters past the first line, in which the header is looked for. */
const HEAD_LINES = 200;
const HEAD_CHARACTERS = 1_000_000;
const SHEET_BATCH = 1000;

/** A file of the log with its form known, ready to be read as often as needed. */
export interface Table {
  readonly file: TableFile;
  readonly name: string;
  readonly encoding: Encoding | 'workbook';
  /** Bytes that are no text in the encoding. */
  readonly badBytes: number;
  /** Empty for the sheet of a workbook. */
  readonly delimiter: string;
  readonly plan: HeaderPlan;
  /** Rows around the header that are no entries. */
  readonly strays: readonly StrayRecord[];
  /** Line ends, blank lines and NULs met in the latest reading. */
  readonly counts: TextCounts;
  /** The records below the header, in batches; `isRow` helps to recover from an unclosed quote. */
  records(isRow: RowShape['isRow']): AsyncGenerator<TextRecord[]>;
}

/**
 * Finds encoding, delimiter and header of a file. Null for a file without any text. The file is
 * read in bounded memory each time `records` is called.
 */
export async function openTable(found: FoundFile, reader: HeaderReader): Promise<Table | null> {
  if (found.rows !== undefined) return openSheet(found.name, found.rows, reader);
  const bytes = await fileBytes(found);
  const { encoding, badBytes } = await sniffEncoding(bytes);
  const text = () => decodeFile(bytes, encoding);
  const head = await headLines(text(), found.name);
  if (head.every((line) => line.trim() === '')) return null;
  const sniffed = sniffTable(head, found.name, reader);
  const counts = noCounts();
  return {
    file: reader.file,
    name: found.name,
    encoding,
    badBytes,
    delimiter: sniffed.delimiter,
    plan: sniffed.plan,
    strays: sniffed.strays,
    counts,
    records: (isRow) => {
      Object.assign(counts, noCounts());
      const lines = splitLines(text(), found.name, counts);
      return recordsBelow(lines, { sniffed, isRow, counts });
    },
  };
}

/** Opens a sheet; its rows go the way of the records of a CSV file, row number for line number. */
function openSheet(name: string, rows: Sheet['rows'], reader: HeaderReader): Table | null {
  const head = sheetRecords(rows.slice(0, HEAD_LINES), 1, []);
  if (head.length === 0) return null;
  const { delimiter, plan, strays, firstLine } = sniffSheet(head, name, reader);
  const kinds = plan.columns.map(({ meaning }) => meaning?.spec.kind ?? null);
  const counts = noCounts();
  return {
    file: reader.file,
    name,
    encoding: 'workbook',
    badBytes: 0,
    delimiter,
    plan,
    strays,
    counts,
    records: async function* () {
      Object.assign(counts, noCounts());
      for (let at = firstLine - 1; at < rows.length; at += SHEET_BATCH) {
        const batch = rows.slice(at, at + SHEET_BATCH);
        const records = sheetRecords(batch, at + 1, kinds);
        counts.blank += batch.length - records.length;
        yield records;
      }
    },
  };
}

/** The rows of a sheet that hold anything, as records. */
function sheetRecords(
  rows: Sheet['rows'],
  firstLine: number,
  kinds: readonly (CellKind | null)[],
): TextRecord[] {
  return rows.flatMap((row, index) => {
    const cells = row.map((cell, at) => sheetText(cell, kinds[at] ?? null));
    if (cells.every((text) => text.trim() === '')) return [];
    const line = firstLine + index;
    return [{ line, lastLine: line, cells, quotes: 'sound' as const }];
  });
}

async function headLines(text: AsyncIterable<string>, name: string): Promise<string[]> {
  const head: string[] = [];
  let characters = 0;
  for await (const lines of splitLines(text, name, noCounts())) {
    for (const line of lines) {
      characters += line.length;
      const isFull = head.length === HEAD_LINES || characters > HEAD_CHARACTERS;
      if (isFull && head.length > 0) return head;
      head.push(line);
    }
  }
  return head;
}

async function* recordsBelow(
  lines: AsyncIterable<string[]>,
  how: { sniffed: SniffedTable; isRow: RowShape['isRow']; counts: TextCounts },
): AsyncGenerator<TextRecord[]> {
  const { delimiter, firstLine, plan } = how.sniffed;
  const width = plan.columns.length;
  const split = (text: string) => withoutBlankEnd(splitRecord(text, delimiter), width);
  const assembler = new RecordAssembler({ delimiter, width, split, isRow: how.isRow }, firstLine);
  let skip = firstLine - 1;
  const cut = (assembled: Assembled[]) => splitRecords(assembled, delimiter);
  for await (const batch of lines) {
    const below = skip > 0 ? batch.slice(skip) : batch;
    skip = Math.max(0, skip - batch.length);
    const assembled = assembler.take(below);
    if (assembled.length > 0) yield cut(assembled);
  }
  const rest = assembler.finish();
  how.counts.blank = assembler.blankLines;
  if (rest.length > 0) yield cut(rest);
}

/** Cells without the empty ones that a spreadsheet leaves beyond the header. */
export function withoutBlankEnd(cells: readonly string[], width: number): readonly string[] {
  let end = cells.length;
  while (end > width && (cells[end - 1] ?? '').trim() === '') end--;
  return end === cells.length ? cells : cells.slice(0, end);
}
