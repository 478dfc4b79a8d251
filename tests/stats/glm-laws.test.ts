import { describe, expect, test } from 'vitest';
import { designMatrix, withLevel } from '../../src/stats/design-matrix.ts';
import { fitFirthLogistic } from '../../src/stats/firth-logistic.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import { type FittedModel, type ModelData, modelCovariance } from '../../src/stats/glm-model.ts';
import { type IndexLevel, indexByLevel } from '../../src/stats/index-by-level.ts';
import {
  fitNegativeBinomial,
  type NegativeBinomialModel,
} from '../../src/stats/negative-binomial-fit.ts';
import { thetaClusterStandardError } from '../../src/stats/negative-binomial-spread.ts';
import { Random } from '../../src/stats/random.ts';
import {
  type ClusterCovariance,
  type ClusterType,
  clusterCovariance,
} from '../../src/stats/sandwich-cluster.ts';
import { contrastSpread, type Spread } from '../../src/stats/sandwich-contrast.ts';
import { standardise } from '../../src/stats/standardise.ts';

const level = 0.95;
const TYPES: ClusterType[] = ['CR0', 'CR1', 'CR1S', 'CR2', 'CR3', 'CR3J'];
const LINES = ['mono', 'braid'];
const REACHES = ['short', 'middle', 'long'];

/** One season of tallies, drawn with a fixed seed. */
function season(seed: number) {
  const random = new Random(seed);
  const rows = Array.from({ length: 16 }, (_, trip) => trip).flatMap((trip) => {
    const pull = 0.6 * random.normal();
    return Array.from({ length: 2 + random.integer(5) }, () => {
      const [line, reach] = [random.integer(2), random.integer(3)];
      const trials = 1 + random.integer(6);
      const p = 1 / (1 + Math.exp(-0.3 - pull - 0.5 * line + 0.2 * reach));
      const [y, hours] = [random.binomial(trials, p), 0.5 + random.uniform() * 5];
      const bites = random.negativeBinomial(hours * Math.exp(0.2 + pull - 0.3 * reach), 2);
      return { trip, line, reach, trials, y, hours, bites };
    });
  });
  return rows;
}

type Rows = ReturnType<typeof season>;

const designOf = (rows: Rows, lines = LINES, reaches = REACHES) =>
  designMatrix(['line', 'reach'], {
    line: { levels: lines, values: rows.map((r) => LINES[r.line] as string) },
    reach: { levels: reaches, values: rows.map((r) => REACHES[r.reach] as string) },
  });
const hooks = (rows: Rows, design = designOf(rows)): ModelData => ({
  design,
  y: rows.map((r) => r.y),
  trials: rows.map((r) => r.trials),
});
const counts = (rows: Rows, shift = 0): ModelData => ({
  design: designOf(rows),
  y: rows.map((r) => r.bites),
  offset: rows.map((r) => Math.log(r.hours) + shift),
});
const logit = (data: ModelData) => fitGlm(data, { name: 'binomial' }) as FittedModel;
const trips = (rows: Rows) => rows.map((r) => r.trip);
const robust = (fit: FittedModel, clusters: number[], type: ClusterType) =>
  clusterCovariance(fit, clusters, type) as ClusterCovariance;

function compared(fit: FittedModel, clusters: number[], type: ClusterType) {
  const set = (name: string) => withLevel(fit.design, 'line', name);
  const covariance = robust(fit, clusters, type);
  return standardise(fit, { a: set('braid'), b: set('mono') }, { covariance, level });
}

const flat = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(flat)
      : [];

function expectSame(got: unknown, expected: unknown, digits = 1e-9): void {
  const [a, b] = [flat(got), flat(expected)];
  expect(a.length).toBe(b.length);
  for (const [i, value] of a.entries())
    expect(Math.abs(value - (b[i] ?? 0))).toBeLessThanOrEqual(digits * (1 + Math.abs(value)));
}

const rows = season(1);

describe('what must not matter', () => {
  test.each(TYPES)('which level is the reference: %s', (type) => {
    const turned = logit(
      hooks(rows, designOf(rows, ['braid', 'mono'], ['long', 'short', 'middle'])),
    );
    expectSame(
      compared(turned, trips(rows), type),
      compared(logit(hooks(rows)), trips(rows), type),
    );
  });

  test.each(TYPES)('the order of the rows: %s', (type) => {
    const order = new Random(9).permutation(rows.length);
    const mixed = order.map((place) => rows[place] as (typeof rows)[number]);
    expectSame(
      compared(logit(hooks(mixed)), trips(mixed), type),
      compared(logit(hooks(rows)), trips(rows), type),
    );
  });

  test('the reference and the order, for the penalised fit and for counts', () => {
    const firth = (data: ModelData) => fitFirthLogistic(data) as FittedModel;
    const turned = firth(hooks(rows, designOf(rows, ['braid', 'mono'])));
    expectSame(
      compared(turned, trips(rows), 'CR2'),
      compared(firth(hooks(rows)), trips(rows), 'CR2'),
    );
    const backwards = [...rows].reverse();
    const theta = (of: Rows) => {
      const fit = fitNegativeBinomial(counts(of)) as NegativeBinomialModel;
      return [fit.theta, thetaClusterStandardError(fit, trips(of))];
    };
    expectSame(theta(backwards), theta(rows), 1e-8);
  });

  test('whether one row holds two bites or two rows one each, for CR0 (CR2 is told the rows)', () => {
    const single = rows.flatMap((row) =>
      Array.from({ length: row.trials }, (_, bite) => ({
        ...row,
        trials: 1,
        y: bite < row.y ? 1 : 0,
      })),
    );
    const [whole, split] = [logit(hooks(rows)), logit(hooks(single))];
    expectSame([...split.coefficients], [...whole.coefficients]);
    expectSame(
      robust(split, trips(single), 'CR0').matrix.to2DArray(),
      robust(whole, trips(rows), 'CR0').matrix.to2DArray(),
    );
  });
});

describe('what must follow', () => {
  test('twice the data has half the variance', () => {
    const doubled = { ...hooks(rows), weights: rows.map(() => 2) };
    const [once, twice] = [modelCovariance(logit(hooks(rows))), modelCovariance(logit(doubled))];
    expectSame(twice?.mul(2).to2DArray(), once?.to2DArray());
    const again = [...rows, ...rows.map((r) => ({ ...r, trip: r.trip + 100 }))];
    const [one, two] = [logit(hooks(rows)), logit(hooks(again))];
    expectSame(
      robust(two, trips(again), 'CR0').matrix.mul(2).to2DArray(),
      robust(one, trips(rows), 'CR0').matrix.to2DArray(),
    );
  });

  test('hours counted in other units move the intercept and nothing else', () => {
    const inUnits = (shift: number) =>
      fitNegativeBinomial(counts(rows, shift)) as NegativeBinomialModel;
    const [hours, minutes] = [inUnits(0), inUnits(Math.log(60))];
    expect(minutes.model.coefficients[0]).toBeCloseTo(
      (hours.model.coefficients[0] ?? 0) - Math.log(60),
      9,
    );
    expectSame(
      [...minutes.model.coefficients.slice(1)],
      [...hours.model.coefficients.slice(1)],
      1e-8,
    );
    expectSame([minutes.theta, minutes.model.logLik], [hours.theta, hours.model.logLik], 1e-8);
    const index = ({ model }: NegativeBinomialModel) =>
      (
        indexByLevel(model, 'reach', {
          covariance: robust(model, trips(rows), 'CR3J'),
          level,
        }) as readonly IndexLevel[]
      ).map(({ perUnit: _, ...entry }) => entry);
    expectSame(index(minutes), index(hours), 1e-7);
  });

  test('without an interaction the index is b less the logarithm of the mean of exp b', () => {
    const { model } = fitNegativeBinomial(counts(rows)) as NegativeBinomialModel;
    const covariance = robust(model, trips(rows), 'CR3J');
    const index = indexByLevel(model, 'reach', { covariance, level }) as readonly IndexLevel[];
    const b = REACHES.map((name) => model.coefficients[model.names.indexOf(`reach${name}`)] ?? 0);
    const mean = b.reduce((sum, value) => sum + Math.exp(value), 0) / b.length;
    expectSame(
      index.map((entry) => entry.index),
      b.map((value) => Math.exp(value) / mean),
    );
  });

  test('CR3 with its factor is close to leaving each trip out in turn', () => {
    const fit = logit(hooks(rows));
    const all = [...new Set(trips(rows))];
    const left = all.map((trip) => logit(hooks(rows.filter((r) => r.trip !== trip))).coefficients);
    const variance = [...fit.coefficients].map(
      (b, i) =>
        ((all.length - 1) / all.length) * left.reduce((sum, c) => sum + ((c[i] ?? 0) - b) ** 2, 0),
    );
    for (const [i, v] of robust(fit, trips(rows), 'CR3J').matrix.diag().entries())
      expect(v / (variance[i] ?? 1)).toBeGreaterThan(0.8);
    for (const [i, v] of robust(fit, trips(rows), 'CR3J').matrix.diag().entries())
      expect(v / (variance[i] ?? 1)).toBeLessThan(1.25);
  });

  test('99 % contains 95 %, and A against B mirrors B against A', () => {
    const fit = logit(hooks(rows));
    const covariance = robust(fit, trips(rows), 'CR2');
    const set = (name: string) => withLevel(fit.design, 'line', name);
    const [a, b] = [set('braid'), set('mono')];
    const wide = standardise(fit, { a, b }, { covariance, level: 0.99 }).difference;
    const narrow = standardise(fit, { a, b }, { covariance, level: 0.95 }).difference;
    const turned = standardise(fit, { a: b, b: a }, { covariance, level: 0.95 });
    if (wide.kind !== 'estimated' || narrow.kind !== 'estimated') throw new Error('no interval');
    expect(wide.lower).toBeLessThan(narrow.lower);
    expect(wide.upper).toBeGreaterThan(narrow.upper);
    expectSame([narrow.lower, narrow.upper], flipped(turned.difference));
  });

  test('more trips, more degrees of freedom, and never more than trips less one', () => {
    for (const seed of [2, 3, 4]) {
      const drawn = season(seed);
      const fit = logit(hooks(drawn));
      const spread = contrastSpread(
        robust(fit, trips(drawn), 'CR2'),
        Float64Array.from([0, 1, 0, 0]),
      );
      const { degreesOfFreedom } = spread as Spread;
      expect(degreesOfFreedom).toBeGreaterThanOrEqual(1);
      expect(degreesOfFreedom).toBeLessThanOrEqual(15);
    }
  });
});

const flipped = (figure: { kind: string }): number[] => {
  const { lower, upper } = figure as unknown as { lower: number; upper: number };
  return [-upper, -lower];
};
