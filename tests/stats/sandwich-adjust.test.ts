import { describe, expect, test } from 'vitest';
import { Random } from '../../src/stats/random.ts';
import { adjustCr2, adjustCr3 } from '../../src/stats/sandwich-adjust.ts';
import { inverseRoot, symmetricEigen } from '../../src/stats/sandwich-root.ts';

const random = new Random(17);
const block = (rows: number, columns: number, size: number) => ({
  rows,
  columns,
  values: Float64Array.from({ length: rows * columns }, () => size * random.normal()),
});

function expectNear(a: Float64Array, b: Float64Array, digits: number): void {
  const largest = Math.max(...b.map(Math.abs));
  for (const [i, value] of a.entries())
    expect(Math.abs(value - (b[i] ?? 0))).toBeLessThan(digits * largest);
}

describe('rows of one cluster', () => {
  test('rows alike in everything may be put together: 90 rows of 6 kinds, CR2', () => {
    const kinds = block(6, 3, 0.03);
    const kindOf = Array.from({ length: 90 }, (_, row) => (row * 7) % 6);
    const values = Float64Array.from(
      kindOf.flatMap((kind) => [...kinds.values.slice(kind * 3, kind * 3 + 3)]),
    );
    const variance = Float64Array.from(kindOf, (kind) => 0.05 + 0.03 * kind);
    const q = { rows: 90, columns: 3, values };
    // A billionth of a billionth apart they are no longer gathered, but must give the same.
    const apart = variance.map((value, row) => value * (1 + row * 1e-14));
    expectNear(adjustCr2(q, variance).values, adjustCr2(q, apart).values, 1e-9);
  });

  test('equal variances: CR2 is (I − QQ′)^(−1/2)·Q, whose square root taken twice is CR3', () => {
    const q = block(5, 2, 0.25);
    const once = adjustCr2(q, new Float64Array(5).fill(0.2));
    // (I − QQ′)^(−1/2) applied once more to the adjusted rows.
    const root = inverseRoot(lessProducts(q), new Float64Array(5).fill(1));
    const twice = Float64Array.from({ length: 10 }, (_, cell) => {
      const [row, column] = [Math.floor(cell / 2), cell % 2];
      return [0, 1, 2, 3, 4].reduce(
        (sum, k) => sum + (root[row * 5 + k] ?? 0) * (once.values[k * 2 + column] ?? 0),
        0,
      );
    });
    expectNear(twice, adjustCr3(q).adjusted.values, 1e-12);
  });

  test('CR3 by rows and by columns agree', () => {
    const tall = block(6, 5, 0.2);
    const wide = { rows: 4, columns: 5, values: tall.values.slice(0, 20) };
    const padded = {
      rows: 6,
      columns: 5,
      values: Float64Array.from({ length: 30 }, (_, i) => wide.values[i] ?? 0),
    };
    // Two rows of zeros change nothing, but turn the smaller matrix from rows to columns.
    expectNear(
      adjustCr3(padded).adjusted.values.slice(0, 20),
      adjustCr3(wide).adjusted.values,
      1e-12,
    );
  });

  test('a direction that only this cluster knows is named, by rows and by columns', () => {
    const alone = { rows: 2, columns: 3, values: Float64Array.from([0.1, 1, 0, 0.2, 0, 0.1]) };
    // Row one made to hold direction two wholly: (0, 1, 0) after orthogonal scaling.
    const exact = { ...alone, values: Float64Array.from([0, 1, 0, 0.2, 0, 0.1]) };
    for (const q of [
      exact,
      { rows: 4, columns: 3, values: Float64Array.from([...exact.values, 0, 0, 0, 0, 0, 0]) },
    ]) {
      const { lone, adjusted } = adjustCr3(q);
      expect(lone.map((v) => [...v].map((x) => Math.abs(Math.round(x * 1e9) / 1e9)))).toEqual([
        [0, 1, 0],
      ]);
      expect([...adjusted.values].every(Number.isFinite)).toBe(true);
    }
  });
});

function lessProducts({ rows, columns, values }: ReturnType<typeof block>): Float64Array {
  return Float64Array.from({ length: rows * rows }, (_, cell) => {
    const [i, j] = [Math.floor(cell / rows), cell % rows];
    let sum = i === j ? 1 : 0;
    for (let k = 0; k < columns; k++)
      sum -= (values[i * columns + k] ?? 0) * (values[j * columns + k] ?? 0);
    return sum;
  });
}

describe('eigenvalues', () => {
  test('of matrices whose entries differ by 24 powers of ten keep their digits', () => {
    // D·A·D with D = (1, 1e-6, 1e-12), A = [[2,1,0],[1,2,1],[0,1,2]]; the smallest eigenvalue is
    // det(D·A·D) over the product of the others, to first order 1e-24 · (4/3).
    const d = [1, 1e-6, 1e-12];
    const a = [2, 1, 0, 1, 2, 1, 0, 1, 2];
    const scaled = Float64Array.from(
      a,
      (v, i) => v * (d[Math.floor(i / 3)] ?? 0) * (d[i % 3] ?? 0),
    );
    const values = [...symmetricEigen(scaled, 3).values].sort((x, y) => x - y);
    expect((values[0] ?? 0) / ((4 / 3) * 1e-24)).toBeCloseTo(1, 9);
    expect((values[1] ?? 0) / 1.5e-12).toBeCloseTo(1, 9);
    expect(values[2]).toBeCloseTo(2, 9);
  });

  test('the routines for small and large matrices agree', () => {
    const size = 101;
    const matrix = lessProducts(block(size, 4, 0.03));
    const large = [...symmetricEigen(matrix, size).values].sort((x, y) => x - y);
    const trace = matrix.reduce((sum, v, i) => (i % (size + 1) === 0 ? sum + v : sum), 0);
    expect(large.reduce((sum, v) => sum + v, 0)).toBeCloseTo(trace, 9);
    // I − QQ′ with four columns: all but four eigenvalues are 1.
    expect(large.filter((v) => Math.abs(v - 1) < 1e-9)).toHaveLength(size - 4);
  });
});
