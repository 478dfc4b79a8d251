import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Curvature, minimise, minimiseConvex } from '../../src/stats/minimise.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

describe('minimise', () => {
  test.each([
    ['a parabola', (x: number) => (x - 2) ** 2, -3, 9, 2],
    ['−ln of a gamma density', (x: number) => x - 3 * Math.log(x), 0.01, 40, 3],
    ['cos over its trough', Math.cos, 0, 2 * Math.PI, Math.PI],
    ['a corner', (x: number) => Math.abs(x - 0.3), -1, 1, 0.3],
    ['a very flat bottom', (x: number) => (x - 1) ** 4, -4, 3, 1],
    ['the lower end', (x: number) => x, 2, 5, 2],
    ['the upper end', (x: number) => -x, 2, 5, 5],
  ] as const)('%s', (name, f, lower, upper, place) => {
    const found = minimise(f, { lower, upper });
    expect(found.x).toBeCloseTo(place, name === 'a very flat bottom' ? 2 : 6);
    expect(found.value).toBe(f(found.x));
  });

  test('walks away from infinity', () => {
    const walled = (x: number) => (x < 1 ? Number.POSITIVE_INFINITY : (x - 1.5) ** 2);
    expect(minimise(walled, { lower: -8, upper: 4 }).x).toBeCloseTo(1.5, 6);
  });

  test('a tolerance ends the search early, but near', () => {
    let calls = 0;
    const f = (x: number) => {
      calls++;
      return Math.cosh(x - 1);
    };
    expect(minimise(f, { lower: -5, upper: 5, tolerance: 0.01 }).x).toBeCloseTo(1, 1);
    const coarse = calls;
    calls = 0;
    minimise(f, { lower: -5, upper: 5 });
    expect(coarse).toBeLessThan(calls);
  });

  test('the bottom of any parabola between the bounds is found', () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), (place) => {
        const found = minimise((x) => 3 + (x - place) ** 2, { lower: -100, upper: 100 });
        expect(Math.abs(found.x - place)).toBeLessThan(1e-6);
      }),
    );
  });
});

describe('minimiseConvex', () => {
  const quadratic = ([a = 0, b = 0]: readonly number[]): Curvature => ({
    value: (a - 1) ** 2 + 10 * (b + 2) ** 2 + a * b,
    gradient: [2 * (a - 1) + b, 20 * (b + 2) + a],
    hessian: [
      [2, 1],
      [1, 20],
    ],
  });

  test('a quadratic in one step: its gradient is 0 there', () => {
    const found = minimiseConvex(quadratic, [30, -40]);
    expect(quadratic(found ?? []).gradient[0]).toBeCloseTo(0, 12);
    expect(quadratic(found ?? []).gradient[1]).toBeCloseTo(0, 11);
  });

  test('a steep function with an edge, from far away', () => {
    const barrier = ([x = 0]: readonly number[]): Curvature => ({
      value: x > 0 ? x - 1e-3 * Math.log(x) : Number.NaN,
      gradient: [1 - 1e-3 / x],
      hessian: [[1e-3 / x ** 2]],
    });
    expect(minimiseConvex(barrier, [1e-6])?.[0]).toBeCloseTo(1e-3, 12);
  });

  test('no minimum at finite numbers, and two numbers that do the same work', () => {
    const falling = ([x = 0]: readonly number[]): Curvature => {
      const value = Math.exp(-x);
      return { value, gradient: [-value], hessian: [[value]] };
    };
    expect(minimiseConvex(falling, [0])).toBeNull();
    const twins = ([a = 0, b = 0]: readonly number[]): Curvature => ({
      value: (a + b) ** 2,
      gradient: [2 * (a + b), 2 * (a + b)],
      hessian: [
        [2, 2],
        [2, 2],
      ],
    });
    const found = minimiseConvex(twins, [1, 1]);
    if (found !== null) expect(twins(found).value).toBeCloseTo(0, 12);
  });
});
