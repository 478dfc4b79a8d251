import { stat } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { unguardCell } from '../base/format-csv-cell.ts';
import { UserError } from '../base/problem.ts';
import { saysNothing } from './cell.ts';
import { choiceKey } from './cell-choice.ts';
import { decodeFile } from './decode-file.ts';
import { fileBytes } from './file-bytes.ts';
import { sniffEncoding } from './sniff-encoding.ts';

/** A schedule cut into cells, still as text. */
export interface ScheduleTable {
  /** Lower case, words joined by `_`. */
  readonly headers: readonly string[];
  readonly rows: readonly ScheduleRow[];
}

export interface ScheduleRow {
  readonly line: number;
  /** By header; empty where nothing is written, or a word that says so. */
  readonly cells: Readonly<Record<string, string>>;
}

/** No schedule is as large; a log might be. */
const MOST_BYTES = 4_000_000;
const DELIMITERS = [',', ';', '\t', '|'];

/**
 * Reads a schedule into cells, whatever encoding and delimiter a spreadsheet gave it. Rows without
 * any text are left out.
 * @throws UserError (exit 2) for a file that is not there or cannot be split into cells.
 */
export async function scheduleTable(path: string, name: string): Promise<ScheduleTable> {
  const [header, ...below] = recordsOf(await textOf(path, name), name);
  const headers = (header?.record ?? []).map((cell) => choiceKey(cell).replace(/ /g, '_'));
  const rows = below.map(({ record, info }) => ({
    line: info.lines,
    cells: Object.fromEntries(headers.map((column, at) => [column, cellText(record[at] ?? '')])),
  }));
  return { headers, rows: rows.filter(({ cells }) => Object.values(cells).some((c) => c !== '')) };
}

function cellText(text: string): string {
  return saysNothing(text) ? '' : unguardCell(text);
}

async function textOf(path: string, name: string): Promise<string> {
  const found = await stat(path).catch(() => null);
  if (found === null) throw new UserError(`There is no schedule ${path}.`, 2);
  if (!found.isFile() || found.size > MOST_BYTES)
    throw new UserError(`${path} is no schedule: give the schedule.csv that plan wrote.`, 2);
  const bytes = await fileBytes({ name, path, bytes: found.size });
  const { encoding } = await sniffEncoding(bytes);
  let text = '';
  for await (const chunk of decodeFile(bytes, encoding)) text += chunk;
  return text.replaceAll('\0', '').replace(/^"?sep=.\s*?(?:\r\n|\n|\r)/i, '');
}

interface CsvRecord {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

function recordsOf(text: string, name: string): readonly CsvRecord[] {
  const [head = ''] = text.split(/\r\n|\n|\r/, 1);
  const widths = DELIMITERS.map((delimiter) => head.split(delimiter).length);
  const delimiter = DELIMITERS[widths.indexOf(Math.max(...widths))] ?? ',';
  const rules = { delimiter, info: true, relax_column_count: true, skip_empty_lines: true };
  try {
    return parse(text, { ...rules, trim: true }) as unknown as CsvRecord[];
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    throw new UserError(`${name} cannot be split into cells: ${cause}.`, 2);
  }
}
