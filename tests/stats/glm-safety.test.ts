import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { designMatrix, withLevel } from '../../src/stats/design-matrix.ts';
import { fitFirthLogistic } from '../../src/stats/firth-logistic.ts';
import { type FamilyChoice, fitGlm } from '../../src/stats/glm-fit.ts';
import { type FittedModel, modelCovariance } from '../../src/stats/glm-model.ts';
import { indexByLevel } from '../../src/stats/index-by-level.ts';
import { fitNegativeBinomial } from '../../src/stats/negative-binomial-fit.ts';
import { type ClusterType, clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import { modelBasedCovariance } from '../../src/stats/sandwich-contrast.ts';
import { standardise } from '../../src/stats/standardise.ts';

const level = 0.95;
const six = { levels: ['a', 'b'], values: ['a', 'a', 'b', 'b', 'a', 'b'] };
const design = designMatrix(['g'], { g: six });
const modelOf = (y: number[], choice: FamilyChoice, trials?: number[]) =>
  fitGlm({ design, y, ...(trials === undefined ? {} : { trials }) }, choice);
const errors = (model: FittedModel) => (modelCovariance(model)?.diag() ?? []).map(Math.sqrt);

describe('data at the edge', () => {
  test.each([
    ['no success', [0, 0, 0, 0, 0, 0], 'binomial'],
    ['no failure', [1, 1, 1, 1, 1, 1], 'binomial'],
    ['no event', [0, 0, 0, 0, 0, 0], 'poisson'],
  ] as const)('%s: separated, with the limits', (_, y, name) => {
    const found = modelOf([...y], { name });
    expect(found).toMatchObject({ kind: 'separated', extent: 'complete', deviance: 0, logLik: 0 });
    expect(found.kind === 'separated' ? [...found.fitted] : []).toEqual(y);
  });

  test('the penalised fit of six successes in six: log odds of 6.5 to 0.5 in each group', () => {
    const firth = fitFirthLogistic({ design: designMatrix([], {}, 6), y: [1, 1, 1, 1, 1, 1] });
    expect((firth as FittedModel).coefficients[0]).toBeCloseTo(Math.log(6.5 / 0.5), 9);
  });

  test('counts of a thousand million', () => {
    const y = [1e9, 1.00001e9, 2e9, 2.00001e9, 9.9999e8, 1.9999e9];
    const poisson = modelOf(y, { name: 'poisson' }) as FittedModel;
    // Group means and, as error of a log rate, 1/√(total count).
    expect(poisson.coefficients[0]).toBeCloseTo(Math.log(1e9), 12);
    expect(poisson.coefficients[1]).toBeCloseTo(Math.log(5.99991e9 / 3e9), 12);
    expect(errors(poisson)[0]).toBeCloseTo(1 / Math.sqrt(3e9), 15);
    expect(fitNegativeBinomial({ design, y })).toMatchObject({ theta: Number.POSITIVE_INFINITY });
  });

  test('probabilities of one in a million million', () => {
    const trials = [1e12, 1e12, 1e12, 1e12, 1e12, 1e12];
    const rare = modelOf([1, 0, 2, 3, 2, 1], { name: 'binomial' }, trials) as FittedModel;
    expect(rare.coefficients[0]).toBeCloseTo(Math.log(3 / 3e12), 10);
    expect(rare.coefficients[1]).toBeCloseTo(Math.log(6 / 3), 10);
    expect(errors(rare)[0]).toBeCloseTo(1 / Math.sqrt(3), 10);
    const mixed = modelOf([1, 0, 5e11, 5e11, 2, 5e11], { name: 'binomial' }, trials) as FittedModel;
    expect(mixed.coefficients[0]).toBeCloseTo(Math.log(3 / 3e12), 9);
    expect(mixed.coefficients[1]).toBeCloseTo(-Math.log(3 / 3e12), 9);
  });

  test('columns that say the same are set aside by name, the later ones', () => {
    const x = [1, 2, 3, 4, 5, 6];
    const tied = designMatrix(['x', 'z', 'w'], {
      x,
      z: x.map((v) => 2 * v - 1),
      w: [0, 1, 0, 1, 1, 0],
    });
    const found = fitGlm({ design: tied, y: [1, 0, 1, 0, 1, 0] }, { name: 'binomial' });
    expect(found).toMatchObject({ aliased: ['z'], names: ['(Intercept)', 'x', 'w'] });
  });

  test('an intercept far from the data (years as numbers) loses nothing', () => {
    const years = [2024, 2025, 2026, 2027, 2028, 2029];
    const of = (x: number[]) =>
      fitGlm({ design: designMatrix(['x'], { x }), y: [1, 0, 1, 0, 1, 1] }, { name: 'binomial' });
    const [far, near] = [of(years), of(years.map((v) => v - 2026.5))] as FittedModel[];
    expect(far?.coefficients[1]).toBeCloseTo(near?.coefficients[1] ?? 0, 9);
    expect(errors(far as FittedModel)[1]).toBeCloseTo(errors(near as FittedModel)[1] ?? 0, 9);
  });

  test.each([
    [[1, Number.NaN, 1, 0, 1, 0], 'Row 2 of the model has the response NaN'],
    [[1, 2, 1, 0, 1, 0], 'Row 2 of the model has 2 successes in 1 trials'],
    [[1, 0, -1, 0, 1, 0], 'Row 3 of the model has the response -1'],
  ])('impossible responses are named: %j', (y, words) => {
    const found = modelOf(y, { name: 'binomial' });
    expect(found).toMatchObject({ kind: 'not-estimable', reason: expect.stringContaining(words) });
  });

  test('nothing to fit on is said in words', () => {
    const none = fitGlm({ design: designMatrix([], {}, 0), y: [] }, { name: 'binomial' });
    const weightless = modelOf([1, 0, 1, 0, 1, 0], { name: 'binomial' }, [0, 0, 0, 0, 0, 0]);
    const zeros = { ...design, names: ['z'], columns: [new Float64Array(6)] };
    const empty = fitGlm({ design: zeros, y: [1, 0, 1, 0, 1, 0] }, { name: 'binomial' });
    const noHours = fitGlm(
      { design, y: [1, 2, 0, 1, 1, 3], offset: [0, 0, -Infinity, 0, 0, 0] },
      { name: 'poisson' },
    );
    for (const found of [none, weightless, empty, noHours])
      expect(found).toMatchObject({ kind: 'not-estimable', reason: expect.stringMatching(/\.$/) });
  });

  test('as many coefficients as rows: no dispersion, so no model-based error of a quasi model', () => {
    const two = designMatrix(['g'], { g: { levels: ['a', 'b'], values: ['a', 'b'] } });
    const full = fitGlm({ design: two, y: [3, 5] }, { name: 'quasipoisson' }) as FittedModel;
    expect(full.dispersion).toBeNull();
    expect(modelBasedCovariance(full)).toMatchObject({ kind: 'not-estimable' });
  });
});

describe('whatever comes in, a figure or a reason comes out', () => {
  const row = fc.record({
    trip: fc.integer({ min: 1, max: 6 }),
    line: fc.constantFrom('mono', 'braid'),
    reach: fc.constantFrom('short', 'middle', 'long'),
    bites: fc.integer({ min: 0, max: 6 }),
    share: fc.integer({ min: 0, max: 6 }),
  });
  type Row = { trip: number; line: string; reach: string; bites: number; share: number };
  const seasons = fc.array(row, { minLength: 2, maxLength: 25 });
  const levels = { line: ['mono', 'braid'], reach: ['short', 'middle', 'long'] };
  const designOf = (rows: Row[]) =>
    designMatrix(['line', 'reach'], {
      line: { levels: levels.line, values: rows.map((r) => r.line) },
      reach: { levels: levels.reach, values: rows.map((r) => r.reach) },
    });
  const said = (found: { readonly reason: string }): void => {
    expect(found.reason).toMatch(/^[A-Z].*\.$/);
  };
  const isWhole = (value: unknown): boolean =>
    JSON.stringify(value, (_, v) =>
      typeof v === 'number' && Number.isNaN(v) ? 'NaN' : v,
    ).includes('NaN') === false;

  test('comparisons of proportions', () => {
    const types: ClusterType[] = ['CR0', 'CR1', 'CR1S', 'CR2', 'CR3', 'CR3J'];
    fc.assert(
      fc.property(seasons, fc.constantFrom(...types), (rows, type) => {
        const made = designOf(rows);
        if (made.constant.includes('line')) return;
        const y = rows.map((r) => Math.min(r.bites, r.share));
        const data = { design: made, y, trials: rows.map((r) => r.bites) };
        const likelihood = fitGlm(data, { name: 'binomial' });
        const model = likelihood.kind === 'separated' ? fitFirthLogistic(data) : likelihood;
        if (model.kind !== 'fitted') return said(model);
        const covariance = clusterCovariance(
          model,
          rows.map((r) => r.trip),
          type,
        );
        if (covariance.kind !== 'cluster') return said(covariance);
        const set = (name: string) => withLevel(made, 'line', name);
        const got = standardise(model, { a: set('braid'), b: set('mono') }, { covariance, level });
        for (const figure of Object.values(got)) {
          expect(isWhole(figure)).toBe(true);
          if (figure.kind === 'estimated') {
            expect(figure.lower).toBeLessThanOrEqual(figure.estimate);
            expect(figure.upper).toBeGreaterThanOrEqual(figure.estimate);
          }
        }
      }),
      { seed: 22, numRuns: 300 },
    );
  });

  test('indexes of counts', () => {
    fc.assert(
      fc.property(seasons, (rows) => {
        const made = designOf(rows);
        const data = {
          design: made,
          y: rows.map((r) => r.bites),
          offset: rows.map((r) => Math.log(1 + r.share)),
        };
        const found = fitNegativeBinomial(data);
        if (found.kind !== 'negative-binomial') return said(found);
        expect(found.theta).toBeGreaterThan(0);
        const covariance = clusterCovariance(
          found.model,
          rows.map((r) => r.trip),
          'CR3J',
        );
        if (covariance.kind !== 'cluster') return said(covariance);
        const index = indexByLevel(found.model, 'reach', { covariance, level });
        expect(isWhole(index)).toBe(true);
        if (!('reason' in index)) {
          const mean = index.reduce((sum, entry) => sum + entry.index, 0) / index.length;
          expect(mean).toBeCloseTo(1, 9);
          for (const { interval, note } of index) expect(interval === null).toBe(note !== null);
        }
      }),
      { seed: 23, numRuns: 300 },
    );
  });
});
