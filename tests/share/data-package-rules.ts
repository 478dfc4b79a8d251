import { createHash } from 'node:crypto';
import { parse } from 'csv-parse/sync';

/**
 * What the Data Package 2.0 and Table Schema 2.0 standards ask for, checked without any code of the
 * project (Frictionless Data, standard text and JSON profiles; see methods in check-values.json,
 * `frictionless-required`). The registry has no maintained validator for JavaScript: the last release
 * of `tableschema`, 1.12.6, is years old and needs a client with known holes.
 */
export function packageFaults(files: Readonly<Record<string, string>>): string[] {
  const descriptor = JSON.parse(files['datapackage.json'] ?? 'null');
  const faults: string[] = [];
  const need = (holds: boolean, fault: string) => {
    if (!holds) faults.push(fault);
  };
  need(/^[a-z0-9._-]+$/.test(descriptor.name), 'name');
  need(!/\d{4}/.test(descriptor.name), 'name holds a time range');
  need(descriptor.$schema.endsWith('/2.0/datapackage.json'), '$schema');
  need(Array.isArray(descriptor.resources) && descriptor.resources.length > 0, 'resources');
  for (const licence of descriptor.licenses ?? [])
    need(!!(licence.name || licence.path), 'licence');
  for (const source of descriptor.sources ?? []) need(!!source.title, 'source');
  need(!JSON.stringify(descriptor).includes('fieldsMatch'), 'fieldsMatch');
  const names = descriptor.resources.map((resource: { name: string }) => resource.name);
  need(new Set(names).size === names.length, 'resource names');
  for (const resource of descriptor.resources) {
    const { name, path, data, hash } = resource;
    need((path === undefined) !== (data === undefined), `${name}: path or data`);
    need(!/^[/~]|^[a-z]+:|\.\./.test(path), `${name}: path`);
    const text = files[path] ?? '';
    need(hash === `sha256:${createHash('sha256').update(text).digest('hex')}`, `${name}: hash`);
    if (resource.type === 'table') faults.push(...tableFaults(resource, text, descriptor, files));
  }
  return faults;
}

interface Field {
  name: string;
  type: string;
  constraints?: {
    required?: boolean;
    minimum?: number;
    maximum?: number;
    pattern?: string;
    enum?: (string | number)[];
  };
}

const TYPES: Readonly<Record<string, RegExp>> = {
  string: /^[\s\S]*$/,
  integer: /^[+-]?\d+$/,
  number: /^[+-]?(\d+(\.\d+)?|\.\d+)([eE][+-]?\d+)?$/,
  year: /^-?\d{4}$/,
};

function tableFaults(
  resource: { name: string; schema: Record<string, never> },
  text: string,
  descriptor: { resources: { name: string; path: string }[] },
  files: Readonly<Record<string, string>>,
): string[] {
  const {
    fields,
    primaryKey,
    foreignKeys = [],
    missingValues,
  } = resource.schema as unknown as {
    fields: Field[];
    primaryKey: string[];
    foreignKeys?: { fields: string[]; reference: { resource: string; fields: string[] } }[];
    missingValues: string[];
  };
  const faults: string[] = [];
  const rows: Record<string, string>[] = parse(text, { columns: true });
  const [header = []]: string[][] = parse(text);
  if (header.join() !== fields.map((field) => field.name).join())
    faults.push(`${resource.name}: header`);
  for (const [at, row] of rows.entries()) {
    for (const field of fields) {
      const fault = cellFault(row[field.name] ?? '', field, missingValues);
      if (fault !== null) faults.push(`${resource.name} row ${at + 1}, ${field.name}: ${fault}`);
    }
  }
  const keys = rows.map((row) => primaryKey.map((name) => row[name]).join('|'));
  if (new Set(keys).size < keys.length) faults.push(`${resource.name}: primary key`);
  if (rows.some((row) => primaryKey.some((name) => missingValues.includes(row[name] ?? '')))) {
    faults.push(`${resource.name}: empty primary key`);
  }
  for (const { fields: own, reference } of foreignKeys) {
    const path =
      descriptor.resources.find((other) => other.name === reference.resource)?.path ?? '';
    const others: Record<string, string>[] = parse(files[path] ?? '', { columns: true });
    const known = new Set(others.map((row) => reference.fields.map((name) => row[name]).join('|')));
    if (rows.some((row) => !known.has(own.map((name) => row[name]).join('|')))) {
      faults.push(`${resource.name}: foreign key`);
    }
  }
  return faults;
}

function cellFault(
  cell: string,
  { type, constraints = {} }: Field,
  missing: string[],
): string | null {
  const { required, minimum, maximum, pattern, enum: values } = constraints;
  if (missing.includes(cell)) return required ? 'required' : null;
  if (!TYPES[type]?.test(cell)) return `not of type ${type}`;
  const value = type === 'string' ? cell : Number(cell);
  if (minimum !== undefined && Number(value) < minimum) return 'minimum';
  if (maximum !== undefined && Number(value) > maximum) return 'maximum';
  if (pattern !== undefined && !new RegExp(`^(${pattern})$`).test(cell)) return 'pattern';
  if (values !== undefined && !values.includes(value)) return 'enum';
  return null;
}
