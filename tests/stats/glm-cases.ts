import { designMatrix, type Variables } from '../../src/stats/design-matrix.ts';
import type { FamilyChoice } from '../../src/stats/glm-fit.ts';
import {
  coefficientsByName,
  type FittedModel,
  type ModelData,
  modelCovariance,
} from '../../src/stats/glm-model.ts';
import { nullDeviance } from '../../src/stats/glm-null.ts';
import { loadData } from '../helpers/reference.ts';

/** What the model cases of 06-glm say: the data or a data set, a formula, a family. */
export interface GlmInputs {
  readonly formula: string;
  readonly family: string;
  readonly link: string;
  readonly factorLevels?: Readonly<Record<string, readonly string[]>>;
  readonly data?: Columns;
  readonly dataset?: string;
  readonly designMatrix?: readonly (readonly number[])[];
  readonly weightsColumn?: string;
  readonly clusterColumn?: string;
  readonly exposure?: string;
  readonly exposureLevels?: readonly string[];
  readonly indexFactor?: string;
}

type Columns = Readonly<Record<string, readonly (number | string)[]>>;

export interface GlmCase {
  readonly model: ModelData;
  readonly choice: FamilyChoice;
  readonly columns: Columns;
  readonly terms: readonly string[];
  readonly clusters: readonly string[];
}

/** Columns that a case derives from its data set, as its `derived` and `filter` say in words. */
const DERIVED: Readonly<Record<string, (columns: Columns) => Columns>> = {
  birthwt: (c) => ({
    ...c,
    race: numbers(c, 'race').map((code) => ['white', 'black', 'other'][code - 1] as string),
    ptd: truth(numbers(c, 'ptl')),
    smokef: truth(numbers(c, 'smoke')),
    htf: truth(numbers(c, 'ht')),
    uif: truth(numbers(c, 'ui')),
    ftvf: numbers(c, 'ftv').map((visits) => (visits >= 2 ? '2+' : String(visits))),
  }),
  menarche: (c) => ({ ...c, y: numbers(c, 'Menarche'), n: numbers(c, 'Total') }),
  esoph: (c) => ({
    ...c,
    alc: ranks(c, 'alcgp', ['0-39g/day', '40-79', '80-119', '120+']),
    tob: ranks(c, 'tobgp', ['0-9g/day', '10-19', '20-29', '30+']),
  }),
  ships: (c) => {
    const service = numbers(c, 'service');
    const kept = service.map((_, row) => row).filter((row) => (service[row] ?? 0) > 0);
    return Object.fromEntries(
      Object.entries(c).map(([name, column]) => [name, kept.map((row) => column[row] ?? '')]),
    );
  },
  bacteria: (c) => ({
    ...c,
    yn: (c.y ?? []).map((value) => (value === 'y' ? 1 : 0)),
    late: truth(numbers(c, 'week').map((week) => week - 2)),
  }),
};

export const numbers = (columns: Columns, name: string): number[] =>
  (columns[name] ?? []).map(Number);
const truth = (values: readonly number[]): string[] =>
  values.map((value) => (value > 0 ? 'TRUE' : 'FALSE'));
const ranks = (columns: Columns, name: string, order: readonly string[]): number[] =>
  (columns[name] ?? []).map((value) => order.indexOf(String(value)) + 1);

/** Columns of a case: given in full, or a CSV with its derived columns. */
export function columnsOf(inputs: GlmInputs): Columns {
  if (inputs.data !== undefined) return inputs.data;
  const name = (inputs.dataset ?? '').replace(/^data\/|\.csv$/g, '');
  const raw = loadData(name);
  return DERIVED[name]?.(raw) ?? raw;
}

/** The variables of a case: factors with the stated order of levels, everything else as numbers. */
export function variablesOf(columns: Columns, { factorLevels = {} }: GlmInputs): Variables {
  const variables = Object.entries(columns).map(([name, values]) => {
    const levels = factorLevels[name];
    return [
      name,
      levels === undefined ? values.map(Number) : { levels, values: values.map(String) },
    ] as const;
  });
  return Object.fromEntries(variables);
}

/** Turns a case's formula into a call: response, trials, terms, offset, family. */
export function glmCase(inputs: GlmInputs): GlmCase {
  const columns = columnsOf(inputs);
  const [left = '', right = ''] = inputs.formula.split('~').map((side) => side.trim());
  const parts = right.split('+').map((part) => part.trim());
  const offsetOf = parts.map((part) => /^offset\(log\((\w+)\)\)$/.exec(part)?.[1]);
  const offsetName = offsetOf.find((name) => name !== undefined);
  const terms = parts.filter((part, place) => offsetOf[place] === undefined && part !== '1');
  const rows = Object.values(columns)[0]?.length ?? 0;
  const design = designMatrix(terms, variablesOf(columns, inputs), rows);
  const offset =
    offsetName === undefined ? {} : { offset: numbers(columns, offsetName).map(Math.log) };
  const model = { design, ...responseOf(left, columns, inputs), ...offset };
  const clusters = (columns[inputs.clusterColumn ?? ''] ?? []).map(String);
  return { model, choice: choiceOf(inputs), columns, terms, clusters };
}

/** `y`, `cbind(s, f)` with f a column or "n - y", or a share with weights = trials. */
function responseOf(left: string, columns: Columns, { weightsColumn }: GlmInputs) {
  const pair = /^cbind\((\w+), (?:(\w+) - )?(\w+)\)$/.exec(left);
  if (pair !== null) {
    const [, success = '', whole, failure = ''] = pair;
    const y = numbers(columns, success);
    const trials = whole === undefined ? undefined : numbers(columns, whole);
    const failures = numbers(columns, failure);
    return { y, trials: trials ?? y.map((count, row) => count + (failures[row] ?? 0)) };
  }
  const y = numbers(columns, left);
  if (weightsColumn === undefined) return { y };
  const trials = numbers(columns, weightsColumn);
  return { y: y.map((share, row) => share * (trials[row] ?? 0)), trials };
}

function choiceOf({ family, link }: GlmInputs): FamilyChoice {
  if (family === 'binomial' || family === 'quasibinomial')
    return { name: family, link: link as 'logit' | 'probit' | 'cloglog' };
  return { name: family === 'quasipoisson' ? 'quasipoisson' : 'poisson' };
}

/** Everything a plain case of 06-glm expects of a fit. */
export function described(fit: FittedModel, model: Parameters<typeof nullDeviance>[0]) {
  const vcov = modelCovariance(fit);
  return {
    coefficients: coefficientsByName(fit),
    se: Object.fromEntries(fit.names.map((name, i) => [name, Math.sqrt(vcov?.get(i, i) ?? -1)])),
    vcov: vcov?.to2DArray(),
    deviance: fit.deviance,
    nullDeviance: nullDeviance(model, fit.family),
    dfResidual: fit.dfResidual,
    dfNull: fit.rows.length - 1,
    pearsonChiSquare: fit.pearsonChiSquare,
    dispersion: fit.dispersion,
    logLik: fit.logLik,
    aic: fit.aic,
    aliased: fit.aliased.length > 0 ? fit.aliased : null,
    firstFitted: [...fit.fitted.slice(0, 5)],
  };
}
