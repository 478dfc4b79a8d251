import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findRoot, findRootOutward } from '../../src/stats/root.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

describe('findRoot', () => {
  test.each([
    ['√2', (x: number) => x * x - 2, 0, 2, Math.SQRT2],
    ['the golden ratio', (x: number) => x * x - x - 1, 1, 2, (1 + Math.sqrt(5)) / 2],
    ['cos x = x (OEIS A003957)', (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    ['a falling function', (x: number) => 1 - Math.exp(x), -3, 5, 0],
    ['poles of both signs at the ends', (x: number) => 1 / (1 - x) - 1 / x, 0, 1, 0.5],
  ] as const)('%s', (_, f, lower, upper, root) => {
    expect(Math.abs(findRoot(f, { lower, upper }) - root)).toBeLessThan(1e-15);
  });

  test('a triple root, where rounding hides the last two thirds of the digits', () => {
    const root = findRoot((x) => (x - 0.3) ** 3, { lower: -1, upper: 2 });
    expect(root).toBeCloseTo(0.3, 5);
  });

  test('an end that is a root comes back as it stands', () => {
    expect(findRoot((x) => x, { lower: 0, upper: 1 })).toBe(0);
    expect(findRoot((x) => x - 1, { lower: 0, upper: 1 })).toBe(1);
  });

  test('a step from −∞ to +∞ is found to the last digits', () => {
    const step = (x: number) => (x < 1 / 3 ? -Infinity : Infinity);
    expect(findRoot(step, { lower: 0, upper: 1 })).toBeCloseTo(1 / 3, 14);
  });

  test('a tolerance stops the search early but never farther away than it says', () => {
    let calls = 0;
    const f = (x: number) => {
      calls++;
      return x ** 9 - 0.5;
    };
    const root = findRoot(f, { lower: 0, upper: 1, tolerance: 1e-3 });
    const coarse = calls;
    expect(Math.abs(root - 0.5 ** (1 / 9))).toBeLessThan(1e-3);
    calls = 0;
    findRoot(f, { lower: 0, upper: 1 });
    expect(coarse).toBeLessThan(calls);
  });

  test('no sign change, and NaN, are refused in words', () => {
    expect(() => findRoot((x) => x + 5, { lower: 0, upper: 1 })).toThrow(
      'No sign change between 0 (5)',
    );
    expect(() => findRoot(() => Number.NaN, { lower: 0, upper: 1 })).toThrow('is NaN at 0');
  });

  test('a rising cubic is inverted everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (root) => {
        const f = (x: number) => (x - root) * (1 + (x - root) ** 2);
        const got = findRoot(f, { lower: -60, upper: 70 });
        expect(Math.abs(got - root)).toBeLessThan(1e-13 * Math.max(1, Math.abs(root)));
      }),
    );
  });
});

describe('findRootOutward', () => {
  test('encloses a far root on either side', () => {
    expect(findRootOutward((x) => x - 777, 0)).toBeCloseTo(777, 10);
    expect(findRootOutward((x) => Math.atan(x + 12.5), 3)).toBeCloseTo(-12.5, 12);
    expect(findRootOutward((x) => x - 2, 2)).toBe(2);
  });

  test('an infinite answer when the function never crosses', () => {
    expect(findRootOutward((x) => -Math.exp(-Math.abs(x) / 1e5), 0)).toBe(Infinity);
    expect(findRootOutward(() => 1, 0)).toBe(-Infinity);
  });
});
