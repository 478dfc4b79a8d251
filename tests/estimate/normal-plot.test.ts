import { describe, expect, test } from 'vitest';
import { normalPlot } from '../../src/estimate/normal-plot.ts';

describe('normalPlot', () => {
  test('normal quantiles themselves lie on the diagonal', () => {
    // Quantiles of the standard normal law at 0.1, 0.3, 0.5, 0.7, 0.9: any table of it.
    const table = [
      -1.2815515655446004, -0.5244005127080407, 0, 0.5244005127080407, 1.2815515655446004,
    ];
    const pairs = normalPlot([table[3], table[0], table[4], table[2], table[1]] as number[]);
    for (const [at, { expected, found }] of pairs.entries()) {
      expect(expected).toBeCloseTo(table[at] ?? Number.NaN, 12);
      expect(found).toBe(table[at]);
    }
  });

  test('many residuals give 99 pairs in order, none give none', () => {
    const pairs = normalPlot(Array.from({ length: 5000 }, (_, i) => Math.sin(i)));
    expect(pairs).toHaveLength(99);
    expect(pairs.every(({ found }, i) => i === 0 || found >= (pairs[i - 1]?.found ?? 0))).toBe(
      true,
    );
    expect(normalPlot([])).toEqual([]);
  });
});
