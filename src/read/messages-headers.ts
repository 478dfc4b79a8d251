import { nearestWord } from '../base/nearest.ts';
import type { ColumnSpec } from './column-spec.ts';

/** Two headers of one file mean the same column. */
export function duplicateHeaders(found: {
  name: string;
  line: number;
  column: string;
  first: string;
  second: string;
}): string {
  const { name, line, column, first, second } = found;
  return `${name}, line ${line}: the headers "${first}" and "${second}" both mean ${column}. Rename one of them, or write "${first}": ignore under headers in season.yaml to leave one out.`;
}

/** One or more columns that a file cannot do without are not there. */
export function missingColumns(found: {
  name: string;
  line: number;
  missing: readonly ColumnSpec[];
  headers: readonly string[];
  unknown: readonly string[];
}): string {
  const { name, line, missing, headers, unknown } = found;
  const names = missing.map((spec) => spec.name).join(' and ');
  const stand = headers.filter((header) => header.trim() !== '').map(clip);
  const listed = stand.slice(0, 12).join(', ') + (stand.length > 12 ? ', …' : '');
  const near = missing
    .map((spec) => nearestOf(spec, unknown))
    .find((candidate) => candidate !== null);
  const way =
    near === undefined || near === null
      ? 'Add the column, or name yours under headers in season.yaml.'
      : `Did you mean "${clip(near.header)}" to be ${near.column}? Rename it, or map it under headers in season.yaml.`;
  return `${name}, line ${line}: no column ${names} among the headers ${listed}. ${way}`;
}

/** The settings map a header to a column that no file of this kind has. */
export function noSuchColumn(found: {
  place: string;
  file: string;
  theirs: string;
  ours: string;
  names: readonly string[];
}): string {
  const near = nearestWord(found.ours, found.names);
  const way =
    near === null ? `Its columns are ${found.names.join(', ')}.` : `Did you mean "${near}"?`;
  return `${found.place}: the header "${clip(found.theirs)}" is mapped to "${clip(found.ours)}", which is no column of ${found.file}. ${way}`;
}

/** No row of the file looks like a header. */
export function noHeaderRow(name: string, required: readonly string[]): string {
  return `${name} has no header row: its first rows name none of the columns ${required.join(', ')}. Put a first row with the column names.`;
}

/** Far more columns than any log has. */
export function tooManyColumns(name: string, columns: number, most: number): string {
  return `${name} has ${columns} columns; a log has at most ${most}. Export only the table itself.`;
}

function nearestOf(spec: ColumnSpec, unknown: readonly string[]) {
  const header = nearestWord(spec.name, unknown);
  return header === null ? null : { header, column: spec.name };
}

function clip(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
