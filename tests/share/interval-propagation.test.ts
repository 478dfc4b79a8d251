import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { propagateIntervals, type SumLine } from '../../src/share/interval-propagation.ts';

describe('how closely hidden figures follow from sums', () => {
  test('one hole in a line is no hole', () => {
    expect(propagateIntervals(1, [{ unknowns: [0], sum: 7 }])).toEqual([{ lower: 7, upper: 7 }]);
  });

  test('two holes in one line hide behind each other', () => {
    expect(propagateIntervals(2, [{ unknowns: [0, 1], sum: 7 }])).toEqual([
      { lower: 0, upper: 7 },
      { lower: 0, upper: 7 },
    ]);
  });

  // By hand: rows a + b = 5, c + d = 9; columns a + c = 2, b + d = 12. From a ≤ 2: b ≥ 3, and so on.
  test('two by two holes, by hand', () => {
    const lines: SumLine[] = [
      { unknowns: [0, 1], sum: 5 },
      { unknowns: [2, 3], sum: 9 },
      { unknowns: [0, 2], sum: 2 },
      { unknowns: [1, 3], sum: 12 },
    ];
    expect(propagateIntervals(4, lines)).toEqual([
      { lower: 0, upper: 2 },
      { lower: 3, upper: 5 },
      { lower: 0, upper: 2 },
      { lower: 7, upper: 9 },
    ]);
  });

  test('a chain of lines gives the last figure away', () => {
    const lines: SumLine[] = [
      { unknowns: [0], sum: 4 },
      { unknowns: [0, 1], sum: 6 },
      { unknowns: [1, 2], sum: 5 },
    ];
    expect(propagateIntervals(3, lines).map(({ lower, upper }) => [lower, upper])).toEqual([
      [4, 4],
      [2, 2],
      [3, 3],
    ]);
  });

  test('law: every table that has the sums lies within the limits', () => {
    const table = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(table, (cells) => {
        const sumOf = (unknowns: readonly number[]) =>
          unknowns.reduce((n, at) => n + (cells[at] ?? 0), 0);
        const shapes = [
          [0, 1, 2],
          [3, 4, 5],
          [0, 3],
          [1, 4],
          [2, 5],
        ];
        const lines = shapes.map((unknowns) => ({ unknowns, sum: sumOf(unknowns) }));
        const limits = propagateIntervals(6, lines);
        // All two by three tables with these sums: two of the six cells are free.
        for (let a = 0; a <= 36; a += 1) {
          for (let b = 0; b <= 36; b += 1) {
            const [r1 = 0, , c1 = 0, c2 = 0, c3 = 0] = lines.map((line) => line.sum);
            const c = r1 - a - b;
            const all = [a, b, c, c1 - a, c2 - b, c3 - c];
            if (all.some((cell) => cell < 0)) continue;
            for (const [at, cell] of all.entries()) {
              expect(cell).toBeGreaterThanOrEqual((limits[at]?.lower ?? 0) - 1e-9);
              expect(cell).toBeLessThanOrEqual((limits[at]?.upper ?? 0) + 1e-9);
            }
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});
