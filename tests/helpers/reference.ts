import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

/**
 * Reads the reference cases under tests/reference/ and compares results with them at each case's own
 * tolerance. tests/reference/README.md says where the cases come from.
 */
export type Json = number | string | boolean | null | Json[] | { [key: string]: Json };

/**
 * Pass when |got − expected| ≤ max(abs, rel·|expected|). `byKey` overrides for a key anywhere in
 * `expected` and for everything below it; `rel` of Infinity means "for information, not compared".
 */
export interface Tolerance {
  readonly rel: number;
  readonly abs: number;
  readonly byKey?: Readonly<Record<string, Partial<Bound>>>;
}

interface Bound {
  readonly rel: number;
  readonly abs: number;
}

/** One case of a topic file; the type parameters say what its inputs and expected values hold. */
export interface ReferenceCase<Inputs = Record<string, Json>, Expected = Record<string, Json>> {
  readonly id: string;
  readonly description: string;
  readonly inputs: Inputs;
  readonly expected: Expected;
  readonly tolerance: Tolerance;
  readonly provenance: string;
  readonly notes?: string;
}

/** One entry of check-values.json: `tolerance` there is absolute, here it is in the common form. */
export interface CheckValue<Inputs = Record<string, Json>, Expected = Record<string, Json>> {
  readonly id: string;
  readonly inputs: Inputs;
  readonly expected: Expected;
  readonly tolerance: Tolerance;
  readonly source: string;
}

const readJson = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../reference/${name}`, import.meta.url), 'utf8'));

/**
 * All cases of one topic file, e.g. `loadReference('01-proportions')`, with tolerances as numbers;
 * give `idPrefix` to keep the cases whose id begins so (none found is an error, not an empty test).
 */
export function loadReference<Inputs = Record<string, Json>, Expected = Record<string, Json>>(
  topic: string,
  idPrefix = '',
): ReferenceCase<Inputs, Expected>[] {
  const file = readJson(`${topic}.json`) as { cases: ReferenceCase<Inputs, Expected>[] };
  const cases = file.cases.filter((entry) => entry.id.startsWith(idPrefix));
  if (cases.length === 0) throw new Error(`${topic}.json has no case beginning "${idPrefix}".`);
  return cases.map((entry) => ({ ...entry, tolerance: numericTolerance(entry.tolerance) }));
}

/** The check value of one id; its absolute tolerances become `abs`, `all` becomes the default. */
export function loadCheckValue<Inputs = Record<string, Json>, Expected = Record<string, Json>>(
  id: string,
): CheckValue<Inputs, Expected> {
  const entries = readJson('check-values.json') as (CheckValue<Inputs, Expected> & {
    tolerance?: Record<string, number>;
  })[];
  const entry = entries.find((candidate) => candidate.id === id);
  if (entry === undefined) throw new Error(`check-values.json has no entry "${id}".`);
  const { all = 0, ...rest } = entry.tolerance as unknown as Record<string, number>;
  const byKey = Object.fromEntries(Object.entries(rest).map(([k, abs]) => [k, { rel: 0, abs }]));
  return { ...entry, tolerance: { rel: 0, abs: all, byKey } };
}

/** A CSV beside the cases as text columns by header, e.g. `loadData('city').u`. */
export function loadData(name: string): Record<string, string[]> {
  const url = new URL(`../reference/data/${name}.csv`, import.meta.url);
  const [header = '', ...lines] = readFileSync(url, 'utf8').trim().split(/\r?\n/);
  const cells = lines.map((line) => line.split(',').map(unquoted));
  return Object.fromEntries(
    header.split(',').map((column, at) => [unquoted(column), cells.map((row) => row[at] ?? '')]),
  );
}

const unquoted = (text: string): string => text.replace(/^"(.*)"$/, '$1');

/**
 * Fails with every place where `got` leaves `expected` by more than the tolerance. Every key of
 * `expected` must be met; further fields of `got` are free. null, or an object of
 * nulls, is met by null or by a not-estimable result, "Infinity" by the number. `key` names a single value taken out of a case
 * ('wilson' or 'wilson.lower'), so that `byKey` still applies.
 */
export function expectClose(got: unknown, expected: unknown, tolerance: Tolerance, key = ''): void {
  const path = key === '' ? [] : key.split('.');
  const bound = path.reduce((outer, name) => boundOf(name, outer, tolerance), {
    rel: tolerance.rel,
    abs: tolerance.abs,
  });
  const misses = differences(got, expected, { path, bound, tolerance });
  expect(misses, misses.join('\n')).toEqual([]);
}

interface Place {
  readonly path: readonly string[];
  readonly bound: Bound;
  readonly tolerance: Tolerance;
}

function differences(got: unknown, expected: unknown, place: Place): string[] {
  if (place.bound.rel === Number.POSITIVE_INFINITY) return [];
  if (expected === null) return isAbsent(got) ? [] : [miss(got, 'null', place)];
  if (typeof expected === 'object') {
    if (isAbsent(got) && Object.values(expected).every((value) => value === null)) return [];
    if (typeof got !== 'object' || got === null) return [miss(got, 'an object', place)];
    if (Array.isArray(expected) && lengthOf(got) !== expected.length)
      return [miss(`${lengthOf(got)} values`, `${expected.length} values`, place)];
    return Object.entries(expected).flatMap(([name, value]) =>
      differences((got as Record<string, unknown>)[name], value, inner(name, place)),
    );
  }
  const target = asNumber(expected);
  if (typeof target !== 'number') return got === target ? [] : [miss(got, String(target), place)];
  if (typeof got !== 'number') return [miss(got, String(target), place)];
  const allowed = Math.max(place.bound.abs, place.bound.rel * Math.abs(target));
  const near = got === target || Math.abs(got - target) <= allowed;
  return near && !(Number.isFinite(got) !== Number.isFinite(target))
    ? []
    : [miss(got, String(target), place)];
}

const lengthOf = (got: object): number | undefined => (got as ArrayLike<unknown>).length;

function isAbsent(got: unknown): boolean {
  if (got === null) return true;
  if (typeof got !== 'object') return false;
  const fields = got as Record<string, unknown>;
  return fields.kind === 'not-estimable' || (fields.lower === null && fields.upper === null);
}

const inner = (name: string, place: Place): Place => ({
  ...place,
  path: [...place.path, name],
  bound: boundOf(name, place.bound, place.tolerance),
});

const boundOf = (name: string, outer: Bound, tolerance: Tolerance): Bound => ({
  ...outer,
  ...tolerance.byKey?.[name],
});

function miss(got: unknown, expected: string, { path, bound }: Place): string {
  const off = typeof got === 'number' ? ` (off by ${got - Number(expected)})` : '';
  return `${path.join('.') || 'value'}: got ${String(got)}, expected ${expected}${off}, rel ${bound.rel}, abs ${bound.abs}`;
}

function asNumber(value: unknown): unknown {
  if (value === 'Infinity') return Number.POSITIVE_INFINITY;
  return value === '-Infinity' ? Number.NEGATIVE_INFINITY : value;
}

/** JSON has no infinity, so the files write "Infinity". */
function numericTolerance(raw: Tolerance): Tolerance {
  const bound = (from: Partial<Bound>): Partial<Bound> => ({
    ...(from.rel === undefined ? {} : { rel: Number(from.rel) }),
    ...(from.abs === undefined ? {} : { abs: Number(from.abs) }),
  });
  const byKey = Object.entries(raw.byKey ?? {}).map(([name, from]) => [name, bound(from)]);
  return { rel: Number(raw.rel), abs: Number(raw.abs), byKey: Object.fromEntries(byKey) };
}
