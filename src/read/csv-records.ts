import { parse } from 'csv-parse/sync';
import type { Assembled } from './assemble-records.ts';

/** A record cut into cells, still as text. */
export interface TextRecord {
  readonly line: number;
  readonly lastLine: number;
  readonly cells: readonly string[];
  /** `mended`: quotes out of place were read with judgement; `broken`: the cells are raw text. */
  readonly quotes: 'sound' | 'mended' | 'broken';
}

/** Cuts one line or record that follows the rules of CSV into cells. */
export function splitRecord(text: string, delimiter: string): string[] {
  return parseText(text, delimiter)[0] ?? [];
}

/** Cuts a batch of records into cells; those that could not be assembled stay whole. */
export function splitRecords(records: readonly Assembled[], delimiter: string): TextRecord[] {
  const regular = records.filter((record) => record.cells === null && !record.broken);
  const rows = parseText(regular.map((record) => record.text).join('\n'), delimiter);
  let next = 0;
  return records.map((record) => {
    const { line, lastLine } = record;
    if (record.broken) return { line, lastLine, cells: [record.text], quotes: 'broken' as const };
    if (record.cells !== null) {
      return { line, lastLine, cells: record.cells, quotes: 'mended' as const };
    }
    const cells = rows[next] ?? [];
    next++;
    return { line, lastLine, cells, quotes: 'sound' as const };
  });
}

function parseText(text: string, delimiter: string): string[][] {
  return parse(text, { delimiter, record_delimiter: '\n', relax_column_count: true });
}
