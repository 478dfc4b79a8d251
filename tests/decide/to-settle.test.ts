import { describe, expect, test } from 'vitest';
import { type SoFar, toSettle } from '../../src/decide/to-settle.ts';
import { type ComparisonParts, makeComparison, verdictOn } from './make-comparison.ts';

const z = 1.959963984540054;

function settle(parts: ComparisonParts, soFar: SoFar) {
  const comparison = makeComparison(parts);
  return toSettle(comparison, verdictOn(comparison), soFar);
}

// Worked by hand with qnorm of R from the formulas alone: Fleiss 1981 eq. 3.18 for unequal groups
// (equal ones agree with power.prop.test: 1,564.67 a group for 55 % against 50 %).
describe('how much more would settle it', () => {
  const soFar = { unitsA: 200, unitsB: 300, bites: 500, trips: 40 };

  test('shares: the sample size times the design effect, less what is there', () => {
    // 60 % of 200 against 50 % of 300; the interval is √1.5 times as wide as independent bites give.
    const half = z * Math.sqrt(1.5 * (0.24 / 200 + 0.25 / 300));
    const gap = [0.1, 0.1 - half, 0.1 + half] as const;
    const found = settle({ gap, a: [0.6, 0, 1], b: [0.5, 0, 1] }, soFar);
    // About the 54 % of both: 56.5 against 51.5 % takes 3,248.835, the other way round 3,244.662;
    // the larger times 1.5, less 500: 4,373.3.
    expect(found).toMatchObject({ units: 4374, bites: 4374, trips: 350, by: 'power' });
    expect(found?.designEffect).toBeCloseTo(1.5, 9);
  });

  test('shares of hooked fish: bites at the log’s own pace', () => {
    const half = z * Math.sqrt(1.5 * (0.24 / 200 + 0.25 / 300));
    const gap = [0.1, 0.1 - half, 0.1 + half] as const;
    const parts = { measure: 'caught_rate', gap, a: [0.6, 0, 1], b: [0.5, 0, 1] } as const;
    expect(settle(parts, { ...soFar, bites: 1000 })).toMatchObject({ units: 4374, bites: 8747 });
  });

  test('rates: line-hours for a tenth more', () => {
    // 0.26 an hour on 200 h against 0.20 on 300 h; variance twice that of independent bites. About
    // the 0.224 of both, a tenth apart, B the higher: 31,777.8 h more.
    const parts = {
      measure: 'bites_per_line_hour',
      gap: [1.3, 0.768896, 2.197957],
      a: [0.26, 0, 1],
      b: [0.2, 0, 1],
    } as const;
    const found = settle(parts, { unitsA: 200, unitsB: 300, bites: 112, trips: 25 });
    expect(found?.designEffect).toBeCloseTo(2, 4);
    expect(found?.units).toBeCloseTo(31778, -1);
    expect(found?.bites).toBeCloseTo(7118, -1);
    expect(found?.trips).toBe(1589);
  });

  test('a log that has the planned size already needs an interval half as wide as the margin', () => {
    // 40,000 bites, ± 3 points: 40,000 · (3 ÷ 2.5)² = 57,600 in all.
    const gap = [0.02, -0.01, 0.05] as const;
    const large = { unitsA: 20_000, unitsB: 20_000, bites: 40_000, trips: 400 };
    const found = settle({ gap, a: [0.6, 0, 1], b: [0.5, 0, 1] }, large);
    expect(found).toMatchObject({ units: 17_600, trips: 176, by: 'width' });
  });

  test('an interval narrower than independent bites give counts as theirs', () => {
    const gap = [0.02, -0.04, 0.08] as const;
    const found = settle({ gap, a: [0.6, 0, 1], b: [0.5, 0, 1] }, soFar);
    expect(found?.designEffect).toBe(1);
  });

  test('A against B asks for as much as B against A', () => {
    const gap = [0.02, -0.05, 0.09] as const;
    const back = [-0.02, -0.09, 0.05] as const;
    const [a, b] = [[0.88, 0, 1] as const, [0.86, 0, 1] as const];
    const found = settle({ gap, a, b }, { ...soFar, unitsA: 400, unitsB: 1800 });
    const turned = settle({ gap: back, a: b, b: a }, { ...soFar, unitsA: 1800, unitsB: 400 });
    expect(found?.units).toBe(turned?.units);
  });

  test.each([0.9985, 0.9999])(
    'a margin of %f, as wide as shares go, still has an answer or none',
    (margin) => {
      const gap = [0.02, -0.9, 0.99] as const;
      const comparison = makeComparison({ gap, a: [0.6, 0, 1], b: [0.5, 0, 1] });
      const found = toSettle(comparison, { ...verdictOn(comparison), margin }, soFar);
      expect(found === null || Number.isFinite(found.units)).toBe(true);
    },
  );

  test('near 100 % the margin is looked for below', () => {
    const gap = [0.01, -0.05, 0.07] as const;
    const found = settle({ gap, a: [0.97, 0, 1], b: [0.98, 0, 1] }, soFar);
    expect(found?.units).toBeGreaterThan(0);
  });
});

describe('nothing to plan from', () => {
  const soFar = { unitsA: 20, unitsB: 30, bites: 50, trips: 4 };
  const gap = [0.05, -0.2, 0.3] as const;

  test.each<[string, ComparisonParts, SoFar]>([
    ['no lens stands', { gap: 'Nothing was counted.' }, soFar],
    ['tied', { gap, tied: [{ covariate: 'month', reason: 'Tied.' }] }, soFar],
    ['no trips', { gap }, { ...soFar, trips: 0 }],
    ['nothing on one level', { gap }, { ...soFar, unitsB: 0 }],
    ['a level that is all or none', { gap, a: [1, 0.8, 1], b: [1, 0.8, 1] }, soFar],
    ['a level without a figure', { gap, b: 'Nothing was counted.' }, soFar],
    ['an open interval', { gap: [0.05, Number.NEGATIVE_INFINITY, 1] }, soFar],
  ])('%s', (_, parts, so) => {
    expect(settle(parts, so)).toBeNull();
  });
});
