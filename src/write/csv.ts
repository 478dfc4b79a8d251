import { guardCell } from '../base/format-csv-cell.ts';

/** A cell to write: null is an empty cell, "not recorded". */
export type CsvValue = string | number | null;

const LINE_END = '\r\n';

/**
 * A CSV text (RFC 4180: commas, CRLF, quotes doubled) that a spreadsheet can open without running
 * anything in it. Numbers are written in full, with a point; an open end of an interval as `Inf`.
 */
export function csvText(header: readonly string[], rows: readonly (readonly CsvValue[])[]): string {
  return [header, ...rows].map((row) => row.map(csvCell).join(',') + LINE_END).join('');
}

function csvCell(value: CsvValue): string {
  if (value === null) return '';
  if (typeof value === 'number') return numberCell(value);
  const text = guardCell(value);
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function numberCell(value: number): string {
  if (Number.isNaN(value)) throw new Error('A figure that is no number reached a CSV file.');
  if (Number.isFinite(value)) return String(value === 0 ? 0 : value);
  return value > 0 ? 'Inf' : '-Inf';
}
