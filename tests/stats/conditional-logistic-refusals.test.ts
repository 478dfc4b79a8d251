import { describe, expect, test } from 'vitest';
import { conditionalLogistic } from '../../src/stats/conditional-logistic.ts';
import type { MatchedRows } from '../../src/stats/conditional-logistic-sets.ts';

type Ties = 'exact' | 'efron' | 'breslow';

/** Rows with one covariate from [set, case, value] triples. */
const rowsFrom = (triples: readonly (readonly [number, number, number])[]): MatchedRows => ({
  names: ['x'],
  covariates: triples.map(([, , value]) => [value]),
  isCase: triples.map(([, isCase]) => isCase === 1),
  set: triples.map(([set]) => set),
});

describe('what cannot be fitted, and why', () => {
  const reason = (rows: MatchedRows, ties: Ties = 'exact') => {
    const fit = conditionalLogistic(rows, { level: 0.95, ties });
    return fit.kind === 'fitted' ? 'fitted' : fit.reason;
  };
  const two = (names: string[], rows: [number, number, number, number][]): MatchedRows => ({
    names,
    covariates: rows.map(([, , a, b]) => [a, b]),
    isCase: rows.map(([, y]) => y === 1),
    set: rows.map(([set]) => set),
  });

  test('no rows, no contrast, no covariate', () => {
    expect(reason(rowsFrom([]))).toContain('No set has both cases and non-cases');
    expect(
      reason(
        rowsFrom([
          [1, 1, 0],
          [1, 1, 3],
          [2, 0, 1],
        ]),
      ),
    ).toContain('No set has both');
    expect(
      reason({ names: [], covariates: [[], []], isCase: [true, false], set: [1, 1] }),
    ).toContain('no covariate');
  });

  test('a covariate that never differs within a set', () => {
    const rows = rowsFrom([
      [1, 1, 0.1],
      [1, 0, 0.1],
      [1, 0, 0.1],
      [2, 1, 7],
      [2, 0, 7],
    ]);
    expect(reason(rows)).toBe('x never differs within a set, so sets cannot say what it does.');
  });

  test('a covariate tied to another', () => {
    const rows = two(
      ['wind', 'waves'],
      [
        [1, 1, 1, 2],
        [1, 0, 2, 4],
        [2, 0, 0, 0],
        [2, 1, 3, 6],
        [3, 1, 1, 2],
        [3, 0, 5, 10],
      ],
    );
    expect(reason(rows)).toBe(
      'waves cannot be told apart from the covariates before it within the sets.',
    );
  });

  test.each(['exact', 'efron', 'breslow'] as const)('cases always above non-cases (%s)', (ties) => {
    const rows = rowsFrom([
      [1, 1, 2],
      [1, 0, 1],
      [2, 1, 5],
      [2, 0, 3],
      [3, 1, 1],
      [3, 0, 0],
    ]);
    expect(reason(rows, ties)).toContain('never overlap');
  });

  test('separation along a mixture of two covariates', () => {
    const rows = two(
      ['a', 'b'],
      [
        [1, 1, 2, 0],
        [1, 0, 0, 1],
        [2, 1, 0, 3],
        [2, 0, 1, 1],
        [3, 1, 4, 1],
        [3, 0, 1, 2],
        [4, 1, 0, 1],
        [4, 0, 0, 0],
      ],
    );
    expect(reason(rows)).toContain('never overlap');
  });

  test('sets too large for exact sums are sent to the approximation', () => {
    const triples = Array.from({ length: 40_000 }, (_, i) => [1, i % 2, i % 7] as const);
    expect(reason(rowsFrom(triples))).toContain('too large for the exact sums');
  });

  test('columns that do not fit together are refused in words', () => {
    const call = (rows: MatchedRows) => () =>
      conditionalLogistic(rows, { level: 0.95, ties: 'exact' });
    expect(call({ names: ['x'], covariates: [[1]], isCase: [true, false], set: [1] })).toThrow(
      'Columns differ in length',
    );
    expect(call({ names: ['x'], covariates: [[1, 2]], isCase: [true], set: [1] })).toThrow(
      'Row 1 needs 1 numbers',
    );
    expect(call({ names: ['x'], covariates: [[Number.NaN]], isCase: [true], set: [1] })).toThrow(
      'not NaN',
    );
  });
});
