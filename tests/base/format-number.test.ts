import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  decimalsFor,
  formatCount,
  formatDecimal,
  formatHours,
  formatSmall,
} from '../../src/base/format-number.ts';

describe('plain numbers', () => {
  test.each([
    [0, 0, '0'],
    [-0, 2, '0.00'],
    [1250, 0, '1,250'],
    [1234567.891, 2, '1,234,567.89'],
    [-1234.5, 1, '−1,234.5'],
    [-0.004, 2, '0.00'],
    [999999, 0, '999,999'],
    [0.05, 1, '0.1'],
    [1e15, 0, '1.0 × 10¹⁵'],
    [-2.54e21, 0, '−2.5 × 10²¹'],
    [Number.POSITIVE_INFINITY, 1, 'no limit'],
  ])('%s with %i decimals is %s', (value, decimals, text) => {
    expect(formatDecimal(value, decimals)).toBe(text);
  });

  test('a non-number never reaches the page', () => {
    expect(() => formatDecimal(Number.NaN, 1)).toThrow('no number');
  });

  test('counts are whole, hours keep a tenth below a hundred', () => {
    expect(formatCount(2013)).toBe('2,013');
    expect([7.25, 99.94, 99.96, 1843.4].map(formatHours)).toEqual(['7.3', '99.9', '100', '1,843']);
  });
});

describe('small numbers', () => {
  test('two significant digits are kept between 0.001 and 100', () => {
    expect([123, 12.3, 1.23, 0.123, 0.0123, 0.00123, 0].map(decimalsFor)).toEqual([
      0, 0, 1, 2, 3, 3, 1,
    ]);
  });

  test('what is there is never written as nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1, noNaN: true }), (value) => {
        expect(Number(formatSmall(value, 3))).not.toBe(0);
      }),
    );
  });
});

test('the digits of a number read back to it, whatever its size', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e12, max: 1e12, noNaN: true }), (value) => {
      const read = Number(formatDecimal(value, 3).replace(/,/g, '').replace('−', '-'));
      expect(Math.abs(read - value)).toBeLessThanOrEqual(0.0005 + Math.abs(value) * 1e-15);
    }),
  );
});
