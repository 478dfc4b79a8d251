import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { conditionalOddsRatio } from '../../src/stats/conditional-odds-ratio.ts';
import { fisherExact } from '../../src/stats/fisher-exact.ts';
import { expectClose } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const how = { level: 0.95 };
const table = (x1: number, n1: number, x2: number, n2: number) => ({ x1, n1, x2, n2 });

/** Chance of each count in the first group, by factorials, at an odds ratio: small tables only. */
function listed({ x1, n1, x2, n2 }: ReturnType<typeof table>, oddsRatio: number) {
  const choose = (n: number, k: number): number =>
    k < 0 || k > n ? 0 : k === 0 ? 1 : (choose(n, k - 1) * (n - k + 1)) / k;
  const events = x1 + x2;
  const weights = Array.from(
    { length: n1 + 1 },
    (_, s) => choose(n1, s) * choose(n2, events - s) * oddsRatio ** s,
  );
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / all);
}
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

// Cases against R, with the conditional odds ratio solved to 1e-14, stand in difference.test.ts.
describe('laws', () => {
  const size = fc.integer({ min: 1, max: 25 });
  const tables = fc
    .tuple(size, size, fc.nat(25), fc.nat(25))
    .map(([n1, n2, a, b]) => table(Math.min(a, n1), n1, Math.min(b, n2), n2));

  test('each limit put back leaves half of 5 % beyond the count seen; the mean at the estimate is it', () => {
    fc.assert(
      fc.property(tables, (four) => {
        const got = fisherExact(four, how);
        if (got.kind === 'not-estimable') return;
        const at = (oddsRatio: number) => listed(four, oddsRatio);
        if (got.lower > 0) expect(sum(at(got.lower).slice(four.x1))).toBeCloseTo(0.025, 9);
        if (got.upper < Infinity)
          expect(sum(at(got.upper).slice(0, four.x1 + 1))).toBeCloseTo(0.025, 9);
        if (got.lower > 0 && got.upper < Infinity)
          expect(sum(at(got.estimate).map((p, s) => p * s))).toBeCloseTo(four.x1, 9);
      }),
    );
  });

  test('p values are the listed sums', () => {
    fc.assert(
      fc.property(tables, (four) => {
        const { pTwoSided, pLess, pGreater } = fisherExact(four, how);
        const chances = listed(four, 1);
        const seen = chances[four.x1] as number;
        expect(pLess).toBeCloseTo(sum(chances.slice(0, four.x1 + 1)), 10);
        expect(pGreater).toBeCloseTo(sum(chances.slice(four.x1)), 10);
        expect(pTwoSided).toBeCloseTo(sum(chances.filter((p) => p <= seen * (1 + 1e-7))), 10);
      }),
    );
  });

  test('a table cut from its margins’ end has an open limit', () => {
    expect(fisherExact(table(0, 15, 3, 12), how)).toMatchObject({
      estimate: 0,
      lower: 0,
      pLess: expect.closeTo(0.0752136752, 9),
    });
    expect(fisherExact(table(15, 15, 11, 12), how)).toMatchObject({
      estimate: Infinity,
      upper: Infinity,
    });
  });

  test('a table far out in its tail keeps the digits of its p', () => {
    // C(20, 20)·C(20, 0)/C(40, 20): all 20 of one group, none of the other.
    const p = 1 / 137_846_528_820;
    expectClose(fisherExact(table(20, 20, 0, 20), how).pGreater, p, { rel: 1e-12, abs: 0 });
    expect(fisherExact(table(90_000, 100_000, 10_000, 100_000), how).pTwoSided).toBe(0);
  });
});

describe('what cannot be said, and why', () => {
  test('margins that allow one table only: no estimate, limits 0 to ∞, p 1', () => {
    for (const four of [table(0, 4, 0, 7), table(4, 4, 7, 7), table(0, 0, 2, 5)])
      expect(fisherExact(four, how)).toMatchObject({
        kind: 'not-estimable',
        reason: 'The totals allow one outcome only, so nothing can be compared.',
        limits: { lower: 0, upper: Infinity },
        pTwoSided: 1,
      });
    expect(conditionalOddsRatio([], how).kind).toBe('not-estimable');
  });

  test('fractions of counts, and strata too large to sum over', () => {
    expect(fisherExact(table(1.5, 4, 2, 7), how)).toMatchObject({
      reason: 'Exact methods need whole counts.',
      pTwoSided: null,
    });
    const huge = table(4e8, 1e9, 3e8, 1e9);
    expect(conditionalOddsRatio([huge, huge], how)).toMatchObject({
      reason: expect.stringContaining('too large for exact sums'),
      limits: null,
    });
  });

  test('impossible counts are refused in words', () => {
    expect(() => fisherExact(table(5, 3, 1, 2), how)).toThrow('5 of 3 and 1 of 2 make no table');
  });
});
