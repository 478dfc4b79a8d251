import { createHash } from 'node:crypto';
import { type CsvValue, csvText } from '../write/csv.ts';

/** What a column may hold beyond its type. Source: Table Schema 2.0, constraints. */
export interface Constraints {
  readonly required?: boolean;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly enum?: readonly (string | number)[];
  readonly pattern?: string;
}

/** A column of a shared table: what it says of itself, and its cell in a row. */
export interface SharedField<Row> {
  readonly name: string;
  readonly type: 'string' | 'integer' | 'number' | 'year';
  readonly description: string;
  readonly constraints: Constraints;
  /** null is an empty cell: not recorded, or not for telling. */
  readonly cell: (row: Row) => CsvValue;
}

/** A table of a package, from which its CSV and its schema are both written. */
export interface SharedTable<Row> {
  /** Lower case; the file is `<name>.csv`. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly fields: readonly SharedField<Row>[];
  /** Columns that tell the rows apart. */
  readonly primaryKey: readonly string[];
  /** Columns that point at the row with the same cells in another table. */
  readonly refersTo?: { readonly table: string; readonly fields: readonly string[] };
  readonly rows: readonly Row[];
}

/** A file of a package before it is written. */
export interface SharedFile {
  readonly name: string;
  readonly text: string;
  /** How the descriptor lists it; null for the descriptor itself. */
  readonly resource: Readonly<Record<string, unknown>> | null;
}

/** The CSV of a table, and the resource that describes it. */
export function tableFile<Row>(table: SharedTable<Row>): SharedFile {
  const { fields, rows } = table;
  const cells = rows.map((row) => fields.map((field) => field.cell(row)));
  const text = csvText(
    fields.map((field) => field.name),
    cells,
  );
  const { name, title, description, primaryKey, refersTo } = table;
  const foreignKeys =
    refersTo === undefined
      ? {}
      : {
          foreignKeys: [
            {
              fields: refersTo.fields,
              reference: { resource: refersTo.table, fields: refersTo.fields },
            },
          ],
        };
  const resource = {
    name,
    type: 'table',
    path: `${name}.csv`,
    title,
    description,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    hash: checksum(text),
    dialect: {
      delimiter: ',',
      lineTerminator: '\r\n',
      quoteChar: '"',
      doubleQuote: true,
      header: true,
    },
    schema: {
      fields: fields.map((field) => ({
        name: field.name,
        type: field.type,
        description: field.description,
        constraints: field.constraints,
      })),
      primaryKey,
      ...foreignKeys,
      missingValues: [''],
    },
  };
  return { name: `${name}.csv`, text, resource };
}

/** Checksum of a text as a resource states it. */
export function checksum(text: string): string {
  return `sha256:${sha256(text)}`;
}

/** SHA-256 of a text in UTF-8, in hexadecimal digits. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
