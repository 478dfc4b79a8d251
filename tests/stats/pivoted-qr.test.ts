import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dot } from '../../src/stats/design-columns.ts';
import {
  inverseUpper,
  pivotedQr,
  solveUpper,
  solveUpperTransposed,
} from '../../src/stats/pivoted-qr.ts';

const columns = (...values: number[][]) => values.map((value) => Float64Array.from(value));

describe('QR with limited pivoting', () => {
  test('of two tied columns the earlier stays, and the tie is told', () => {
    const qr = pivotedQr(columns([1, 1, 1, 1], [1, 2, 3, 4], [5, 7, 9, 11], [1, 0, 0, 1]));
    expect(qr.kept).toEqual([0, 1, 3]);
    expect(qr.aliased).toEqual([2]);
    // 5, 7, 9, 11 = 3 + 2·(1, 2, 3, 4); the column after it takes no part.
    expect(qr.alias.to1DArray().map((v) => Math.round(v * 1e9) / 1e9)).toEqual([3, 2, 0]);
  });

  test('columns of very different size are judged by their own length', () => {
    const qr = pivotedQr(columns([1, 1, 1], [1e-12, 2e-12, 5e-12], [1e12, 1e12, -1e12]));
    expect(qr.kept).toEqual([0, 1, 2]);
  });

  test('nothing to span: zero columns, no rows, no columns', () => {
    expect(pivotedQr(columns([0, 0], [0, 0])).kept).toEqual([]);
    expect(pivotedQr(columns([], [])).aliased).toEqual([0, 1]);
    expect(pivotedQr([]).r.rows).toBe(0);
  });

  test('law: Q is orthonormal, Q·R gives the columns back, triangular solves undo R', () => {
    const entry = fc.double({ min: -100, max: 100, noNaN: true });
    const column = fc.array(entry, { minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(fc.array(column, { minLength: 1, maxLength: 6 }), (values) => {
        const input = columns(...values);
        const { kept, q, r } = pivotedQr(input);
        for (const [i, a] of q.entries())
          for (const [j, b] of q.entries()) expect(dot(a, b)).toBeCloseTo(i === j ? 1 : 0, 10);
        for (const [j, place] of kept.entries())
          for (const [row, value] of (input[place] ?? []).entries()) {
            const back = q.reduce((sum, a, i) => sum + (a[row] ?? 0) * r.get(i, j), 0);
            expect(Math.abs(back - value)).toBeLessThan(1e-9 * 100);
          }
      }),
      { seed: 22, numRuns: 60 },
    );
  });

  test('triangular solves by hand', () => {
    const { r } = pivotedQr(columns([3, 4], [1, 7]));
    expect([r.get(0, 0), r.get(0, 1), r.get(1, 1)].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([
      5, 6.2, 3.4,
    ]);
    const b = Float64Array.from([11.2, 3.4]);
    expect([...solveUpper(r, b)].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([1, 1]);
    expect(
      [...solveUpperTransposed(r, Float64Array.from([5, 9.6]))].map(
        (v) => Math.round(v * 1e9) / 1e9,
      ),
    ).toEqual([1, 1]);
    expect(inverseUpper(r).get(0, 0)).toBeCloseTo(0.2, 12);
  });
});
