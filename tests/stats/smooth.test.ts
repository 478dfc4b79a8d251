import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type LoessOptions, loess } from '../../src/stats/smooth-loess.ts';
import { lowess } from '../../src/stats/smooth-lowess.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

interface Inputs {
  x: number[];
  y: number[];
}

describe('reference cases 12-trend-smoothing (R stats::lowess)', () => {
  type LowessInputs = Inputs & { f: number; iterations: number; delta: number };
  test.each(loadReference<LowessInputs>('12-trend-smoothing', 'lowess-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const { x, y, f, iterations, delta } = inputs;
      expectClose(lowess(x, y, { share: f, rounds: iterations, delta }), expected, tolerance);
    },
  );
});

describe("reference cases 12-trend-smoothing (R stats::loess, surface = 'direct')", () => {
  type LoessInputs = Inputs & LoessOptions & { at: number[] };
  test.each(loadReference<LoessInputs>('12-trend-smoothing', 'loess-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const curve = loess(inputs.x, inputs.y, inputs);
      if (curve.kind !== 'fitted') throw new Error(curve.reason);
      const heights = inputs.at.map((x) => curve.at(x));
      const got = {
        fit: heights.map((height) => height?.fit),
        se: heights.map((height) => height?.standardError),
        residualScale: curve.residualScale,
        equivalentParameters: curve.equivalentParameters,
        traceHat: curve.trace,
      };
      expectClose(got, expected, tolerance);
    },
  );
});

const someX = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 6, maxLength: 25 });

describe('laws', () => {
  test('a straight line comes back as it is, by both', () => {
    fc.assert(
      fc.property(someX, fc.integer({ min: -5, max: 5 }), (x, slope) => {
        const y = x.map((value) => 3 + slope * value);
        for (const [i, value] of lowess(x, y).y.entries())
          expect(value).toBeCloseTo(3 + slope * (lowess(x, y).x[i] as number), 8);
        const curve = loess(x, y, { span: 0.8, degree: 1 });
        if (curve.kind === 'fitted') expect(curve.at(17)?.fit).toBeCloseTo(3 + slope * 17, 6);
      }),
      { numRuns: 40 },
    );
  });

  test('a parabola comes back from local parabolas', () => {
    const x = [0, 1, 2, 4, 5, 7, 8, 9, 12];
    const curve = loess(
      x,
      x.map((v) => v * v - v),
      { span: 0.75, degree: 2 },
    );
    expect(curve.kind === 'fitted' && curve.at(6)?.fit).toBeCloseTo(30, 9);
  });

  test('the order of the points does not matter, and units pass through', () => {
    fc.assert(
      fc.property(someX, (x) => {
        const y = x.map((value) => Math.sin(value) * 10 + value);
        const plain = lowess(x, y, { share: 0.5 });
        const turned = lowess([...x].reverse(), [...y].reverse(), { share: 0.5 });
        expect(turned).toEqual(plain);
        const scaled = lowess(
          x.map((v) => v * 60),
          y.map((v) => v * 2),
          { share: 0.5 },
        );
        scaled.y.forEach((value, i) => {
          expect(value).toBeCloseTo(2 * (plain.y[i] as number), 6);
        });
      }),
      { numRuns: 40 },
    );
  });
});

describe('small and awkward series', () => {
  test('none, one, and points all at one x', () => {
    expect(lowess([], [])).toEqual({ x: [], y: [] });
    expect(lowess([3], [7])).toEqual({ x: [3], y: [7] });
    expect(lowess([2, 2, 2], [1, 5, 9], { rounds: 0 }).y).toEqual([5, 5, 5]);
  });

  test('a curve through every point stays there', () => {
    expect(lowess([1, 2, 3, 4], [4, 4, 4, 4]).y).toEqual([4, 4, 4, 4]);
  });

  test('a delta wider than the series joins its ends', () => {
    const { y } = lowess([0, 1, 2, 3, 4], [0, 5, 5, 5, 8], { share: 0.9, delta: 100 });
    expect(y[2]).toBeCloseTo(((y[0] ?? 0) + (y[4] ?? 0)) / 2, 12);
  });

  test('loess says where it cannot', () => {
    expect(loess([], [], { span: 0.75, degree: 1 }).kind).toBe('not-estimable');
    const few = loess([1, 1, 2, 2], [1, 2, 3, 4], { span: 1, degree: 2 });
    expect(few).toMatchObject({ reason: 'Too few different values of x near some point.' });
    expect(loess([1, 2, 3], [1, 2, 3], { span: 0.1, degree: 1 }).kind).toBe('not-estimable');
  });

  test('numbers that are none are refused', () => {
    expect(() => lowess([1, Number.NaN], [1, 2])).toThrow('finite');
    expect(() => loess([1], [1, 2], { span: 1, degree: 1 })).toThrow('finite');
  });
});
