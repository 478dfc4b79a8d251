import { describe, expect, test } from 'vitest';
import { expectClose, loadCheckValue, loadReference } from './reference.ts';

const tolerance = { rel: 1e-3, abs: 1e-6, byKey: { loose: { rel: 0.5 }, free: { rel: Infinity } } };
const fails = (got: unknown, expected: unknown, key?: string) =>
  expect(() => expectClose(got, expected, tolerance, key)).toThrow();

describe('the comparer of reference cases can fail', () => {
  test('numbers: inside and outside the tolerance', () => {
    expectClose(1.0009, 1, tolerance);
    fails(1.0011, 1);
    fails(Number.NaN, 1);
    fails(undefined, 1);
    fails(Number.POSITIVE_INFINITY, 1e300);
    fails(1e300, 'Infinity');
    expectClose(Number.POSITIVE_INFINITY, 'Infinity', tolerance);
  });

  test('byKey holds for the key and everything below it', () => {
    expectClose({ loose: { lower: 1.4 } }, { loose: { lower: 1 } }, tolerance);
    expectClose(1.4, 1, tolerance, 'loose.lower');
    expectClose({ free: 9 }, { free: 1 }, tolerance);
    fails({ tight: { lower: 1.4 } }, { tight: { lower: 1 } });
  });

  test('a missing key, a wrong length and a value in place of null are misses', () => {
    fails({}, { lower: 1 });
    fails([1, 2], [1]);
    fails(0, null);
    expectClose({ kind: 'not-estimable' }, null, tolerance);
    expectClose({ kind: 'not-estimable' }, { lower: null, upper: null }, tolerance);
    fails({ kind: 'not-estimable' }, { lower: null, upper: 1 });
  });

  test('files are found by name, and a name without cases is an error', () => {
    expect(loadReference('13-distributions').length).toBe(422);
    expect(() => loadReference('13-distributions', 'no-such-')).toThrow('no case');
    expect(loadCheckValue('wilson-81-263').tolerance.abs).toBe(5e-5);
  });
});
