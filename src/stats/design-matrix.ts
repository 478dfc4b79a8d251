import type { Column } from './design-columns.ts';
import { product } from './design-columns.ts';
import { codedByDifferences, expandTerms, type Term } from './design-terms.ts';

/** A named grouping of the rows; the first level that occurs is the reference. */
export interface Factor {
  /** All levels in their order; levels without a row are dropped when a design is made. */
  readonly levels: readonly string[];
  /** The level of each row. */
  readonly values: readonly string[];
}

/** What a model may depend on: a number for each row, or a factor. */
export type Variable = Factor | ArrayLike<number>;
export type Variables = Readonly<Record<string, Variable>>;

/** The columns a model is fitted on, and how they came from the variables. */
export interface Design {
  readonly rows: number;
  /** `(Intercept)`, `age`, `baitherring` (variable and level), `baitherring:age`. */
  readonly names: readonly string[];
  readonly columns: readonly Column[];
  readonly terms: readonly Term[];
  readonly variables: Variables;
  /** Factors left with one level, which therefore add no column. */
  readonly constant: readonly string[];
  /** The columns of each term. */
  readonly parts: readonly (readonly NamedColumn[])[];
}

/** A column of a design with its name; the intercept's is empty here. */
export interface NamedColumn {
  readonly name: string;
  readonly column: Column;
}

const isFactor = (variable: Variable): variable is Factor => 'levels' in variable;

/**
 * Builds the design of a linear model: treatment coding, first level = reference.
 * @param terms e.g. ['bait', 'reach', 'bait:age', 'line*hook']; [] is the intercept alone
 * @param variables every variable named in the terms, all with one value for each row
 * @param rows number of rows, needed only where there is no variable to tell
 * @throws on an unknown variable, unequal lengths, or a value outside the factor's levels: mistakes
 * of the calling program, never of a log.
 */
export function designMatrix(
  terms: readonly string[],
  variables: Variables,
  rows = rowsOf(variables),
): Design {
  const model = expandTerms(terms);
  const used = [...new Set(model.flat())].map((name) => {
    const variable = variables[name];
    if (variable === undefined) throw new Error(`The model names "${name}", which is not given.`);
    return [name, checked(name, variable, rows)] as const;
  });
  const kept = Object.fromEntries(used);
  const constant = used.filter(([, v]) => isFactor(v) && v.levels.length < 2).map(([name]) => name);
  const parts = model.map((term) => encodeTerm(term, { model, variables: kept, rows }));
  return { ...flat(parts), rows, terms: model, variables: kept, constant };
}

/**
 * The same columns for other rows, e.g. a grid to predict on. Factors keep the levels of `design`.
 * @throws when a new row has a level the design has never seen.
 */
export function designFor(design: Design, variables: Variables): Design {
  const rows = rowsOf(variables);
  const given = Object.entries(design.variables).map(([name, old]) => {
    const fresh = variables[name];
    if (fresh === undefined) throw new Error(`The new rows lack "${name}".`);
    if (!isFactor(old)) return [name, fresh] as const;
    const values = isFactor(fresh) ? fresh.values : [];
    for (const value of values) if (!old.levels.includes(value)) throw unknownLevel(name, value);
    return [name, { levels: old.levels, values }] as const;
  });
  return encodeAgain(design, Object.fromEntries(given), rows);
}

/** The same rows with one factor set to one level everywhere: "every bite on braid". */
export function withLevel(design: Design, factor: string, level: string): Design {
  const old = design.variables[factor];
  if (old === undefined || !isFactor(old))
    throw new Error(`"${factor}" is no factor of the model.`);
  if (!old.levels.includes(level)) throw unknownLevel(factor, level);
  const set = { levels: old.levels, values: old.values.map(() => level) };
  return encodeAgain(design, { ...design.variables, [factor]: set }, design.rows);
}

/** Terms whose variables have stayed the same keep their columns. */
function encodeAgain(design: Design, variables: Variables, rows: number): Design {
  const { terms: model } = design;
  const parts = model.map((term, place) => {
    const same = rows === design.rows && term.every((n) => variables[n] === design.variables[n]);
    return same ? (design.parts[place] ?? []) : encodeTerm(term, { model, variables, rows });
  });
  return { ...design, ...flat(parts), rows, variables };
}

function rowsOf(variables: Variables): number {
  const [first] = Object.values(variables);
  if (first === undefined) throw new Error('A design without variables needs its number of rows.');
  return isFactor(first) ? first.values.length : first.length;
}

function checked(name: string, variable: Variable, rows: number): Variable {
  const length = isFactor(variable) ? variable.values.length : variable.length;
  if (length !== rows) throw new Error(`"${name}" has ${length} values for ${rows} rows.`);
  if (!isFactor(variable)) return variable;
  const known = new Set(variable.levels);
  const seen = new Set(variable.values);
  for (const value of seen) if (!known.has(value)) throw unknownLevel(name, value);
  return { levels: variable.levels.filter((level) => seen.has(level)), values: variable.values };
}

const unknownLevel = (name: string, value: string): Error =>
  new Error(`"${value}" is no level of the factor "${name}".`);

interface Encoding {
  readonly model: readonly Term[];
  readonly variables: Variables;
  readonly rows: number;
}

function encodeTerm(term: Term, encoding: Encoding): NamedColumn[] {
  const ones: NamedColumn = { name: '', column: new Float64Array(encoding.rows).fill(1) };
  let products = [ones];
  for (const name of term) {
    const columns = encodeVariable(name, term, encoding);
    // The first variable of a product runs fastest, as in the usual output of statistics programs.
    products = columns.flatMap((column) => products.map((before) => multiply(before, column)));
  }
  return products;
}

const multiply = (a: NamedColumn, b: NamedColumn): NamedColumn =>
  a.name === '' ? b : { name: `${a.name}:${b.name}`, column: product(a.column, b.column) };

function encodeVariable(name: string, term: Term, { model, variables }: Encoding): NamedColumn[] {
  const variable = variables[name] as Variable;
  if (!isFactor(variable)) return [{ name, column: Float64Array.from(variable) }];
  const levels = variable.levels.slice(codedByDifferences(name, term, model) ? 1 : 0);
  const rows = variable.values.length;
  const columns = levels.map((level) => ({
    name: `${name}${level}`,
    column: new Float64Array(rows),
  }));
  const byLevel = new Map(levels.map((level, place) => [level, columns[place]?.column]));
  for (let row = 0; row < rows; row++) {
    const column = byLevel.get(variable.values[row] as string);
    if (column !== undefined) column[row] = 1;
  }
  return columns;
}

function flat(parts: Design['parts']): Pick<Design, 'names' | 'columns' | 'parts'> {
  const all = parts.flat();
  return {
    names: all.map(({ name }) => name || '(Intercept)'),
    columns: all.map(({ column }) => column),
    parts,
  };
}
