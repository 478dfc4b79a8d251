import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import { findSeparation } from '../../src/stats/separation.ts';

const factor = (values: string[], levels = [...new Set(values)].sort()) => ({ levels, values });
const names = (columns: readonly number[], all: readonly string[]) => columns.map((c) => all[c]);

describe('separation, by hand', () => {
  test('one level all success: only that level, quasi, and its rows', () => {
    const design = designMatrix(['bait'], { bait: factor(['a', 'a', 'b', 'b', 'c', 'c']) });
    const found = findSeparation(design.columns, [1, -1, 1, -1, 1, 1]);
    expect(found).toMatchObject({ extent: 'quasi', rows: [4, 5] });
    expect(names(found?.columns ?? [], design.names)).toEqual(['baitc']);
  });

  test('the reference level all success: the intercept and every difference from it', () => {
    const design = designMatrix(['bait'], { bait: factor(['a', 'a', 'b', 'b', 'c', 'c']) });
    const found = findSeparation(design.columns, [1, 1, 1, -1, 1, -1]);
    expect(names(found?.columns ?? [], design.names)).toEqual(['(Intercept)', 'baitb', 'baitc']);
  });

  test('a threshold in a number: complete with a gap, quasi with a shared value, none with overlap', () => {
    const x = designMatrix(['x'], { x: [1, 2, 3, 4] }).columns;
    expect(findSeparation(x, [-1, -1, 1, 1])?.extent).toBe('complete');
    expect(findSeparation(x, [-1, 1, -1, 1])).toBeNull();
    const shared = designMatrix(['x'], { x: [1, 2, 2, 3] }).columns;
    expect(findSeparation(shared, [-1, -1, 1, 1])).toMatchObject({ extent: 'quasi', rows: [0, 3] });
  });

  test('rows with successes and failures hold a direction fast', () => {
    const { columns } = designMatrix(['x'], { x: [1, 2, 3] });
    expect(findSeparation(columns, [-1, 0, 1])).toMatchObject({ extent: 'quasi', columns: [0, 1] });
    expect(findSeparation(columns, [-1, 0, 0])).toBeNull();
  });

  test('two causes at once are both named', () => {
    const bait = factor(['a', 'a', 'b', 'a', 'a', 'b', 'a', 'a']);
    const line = factor(['p', 'p', 'p', 'q', 'q', 'p', 'q', 'q']);
    const design = designMatrix(['bait', 'line'], { bait, line });
    const found = findSeparation(design.columns, [1, -1, 1, -1, -1, 1, -1, -1]);
    expect(names(found?.columns ?? [], design.names)).toEqual(['baitb', 'lineq']);
    expect(found?.rows).toEqual([2, 3, 4, 5, 6, 7]);
  });
});

describe('laws', () => {
  const row = fc.record({
    a: fc.integer({ min: 0, max: 2 }),
    x: fc.integer({ min: 0, max: 5 }),
    y: fc.integer({ min: 0, max: 1 }),
  });
  const data = fc.array(row, { minLength: 4, maxLength: 14 });
  const designOf = (rows: { a: number; x: number }[]) =>
    designMatrix(['a', 'x'], {
      a: factor(rows.map(({ a }) => `l${a}`)),
      x: rows.map(({ x }) => x),
    });

  // A certificate is right exactly when Newton's method runs away; both are watched here.
  test('the fit is finite exactly when no separation is found', () => {
    fc.assert(
      fc.property(data, (rows) => {
        const design = designOf(rows);
        const y = rows.map((r) => r.y);
        const fit = fitGlm({ design, y }, { name: 'binomial' });
        const ridge = fitGlm(
          // A hundredth of a success and of a failure on every row make any fit finite.
          { design, y: y.map((v) => 100 * v + 1), trials: y.map(() => 102) },
          { name: 'binomial' },
        );
        expect(['fitted', 'separated']).toContain(fit.kind);
        expect(ridge.kind).toBe('fitted');
        if (fit.kind === 'fitted')
          for (const b of fit.coefficients) expect(Math.abs(b)).toBeLessThan(60);
        if (fit.kind === 'separated')
          for (const place of fit.rows) expect(fit.fitted[place]).toBe(y[place]);
      }),
      { seed: 6, numRuns: 150 },
    );
  });

  test('neither the order of rows nor the names of the outcomes matter', () => {
    fc.assert(
      fc.property(data, fc.integer({ min: 1, max: 9 }), (rows, shift) => {
        const turned = rows.map((_, i) => rows[(i + shift) % rows.length] as (typeof rows)[number]);
        const kind = (of: typeof rows) =>
          fitGlm({ design: designOf(of), y: of.map(({ y }) => y) }, { name: 'binomial' }).kind;
        expect(kind(turned)).toBe(kind(rows));
        expect(kind(rows.map((r) => ({ ...r, y: 1 - r.y })))).toBe(kind(rows));
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});
