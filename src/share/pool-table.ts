import { parse } from 'csv-parse/sync';
import { UserError } from '../base/problem.ts';
import type { TableResource } from './pool-descriptor.ts';
import * as say from './pool-messages.ts';

/** A cell after its schema: text, number, or null for an empty one. */
export type SchemaCell = string | number | null;
/** A row by column. */
export type SchemaRow = Readonly<Record<string, SchemaCell>>;

type Field = TableResource['schema']['fields'][number];

/**
 * The rows of a CSV held against its schema: columns, types, constraints, one row a key.
 * @throws UserError (exit 3) with file, line and column of the first thing that is not so.
 */
export function schemaRows(text: string, { path: file, schema }: TableResource): SchemaRow[] {
  const { fields, primaryKey } = schema;
  const [header = [], ...records] = recordsOf(text, file);
  const names = fields.map((field) => field.name);
  if (header.join('\n') !== names.join('\n')) {
    throw new UserError(say.badHeader(file, names.join(', ')), 3);
  }
  const keys = new Set<string>();
  return records.map((cells, at) => {
    const line = at + 2;
    const row: Record<string, SchemaCell> = Object.create(null);
    for (const [index, field] of fields.entries()) {
      row[field.name] = cellOf(cells[index] ?? '', field, { file, line });
    }
    const key = primaryKey.map((name) => row[name]).join(' ');
    if (keys.has(key)) throw new UserError(say.twiceTheRow(file, line, key), 3);
    keys.add(key);
    return row;
  });
}

/** Every row that points at another table must find its row there. */
export function checkReferences(
  rows: readonly SchemaRow[],
  { path: file, schema }: TableResource,
  rowsOf: (table: string) => readonly SchemaRow[] | undefined,
): void {
  for (const { fields, reference } of schema.foreignKeys ?? []) {
    const keyOf = (row: SchemaRow, names: readonly string[]) => names.map((n) => row[n]).join('\n');
    const there = new Set(
      (rowsOf(reference.resource) ?? []).map((r) => keyOf(r, reference.fields)),
    );
    const at = rows.findIndex((row) => !there.has(keyOf(row, fields)));
    if (at >= 0) throw new UserError(say.noSuchRow(file, at + 2, reference.resource), 3);
  }
}

function recordsOf(text: string, file: string): string[][] {
  try {
    return parse(text, { record_delimiter: '\r\n' });
  } catch (error) {
    const cause = error instanceof Error ? error.message.replace(/[.]$/, '') : String(error);
    throw new UserError(say.unreadable(file, cause), 3);
  }
}

function cellOf(
  cell: string,
  { name, type, constraints }: Field,
  place: { readonly file: string; readonly line: number },
): SchemaCell {
  const refuse = (expected: string): never => {
    const { file, line } = place;
    throw new UserError(say.badCell(file, { line, column: name }, { cell, expected }), 3);
  };
  if (cell === '') return constraints.required === true ? refuse('a filled cell') : null;
  const { minimum, maximum, pattern } = constraints;
  if (type === 'string') {
    if (pattern !== undefined && !new RegExp(`^(?:${pattern})$`).test(cell))
      refuse('of its pattern');
    return allowed(cell, constraints.enum)
      ? cell
      : refuse(`one of ${constraints.enum?.join(', ')}`);
  }
  const form = type === 'number' ? /^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/i : /^-?\d+$/;
  const value = Number(cell);
  if (!form.test(cell) || !Number.isFinite(value)) return refuse('a number');
  if (type !== 'number' && !Number.isSafeInteger(value)) return refuse('a whole number');
  if (minimum !== undefined && value < minimum) return refuse(`${minimum} or more`);
  if (maximum !== undefined && value > maximum) return refuse(`${maximum} or less`);
  return allowed(value, constraints.enum)
    ? value
    : refuse(`one of ${constraints.enum?.join(', ')}`);
}

function allowed(
  value: string | number,
  values: readonly (string | number)[] | undefined,
): boolean {
  return values === undefined || values.includes(value);
}
